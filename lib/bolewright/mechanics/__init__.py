"""Statics: beams, plane and space frames, sections; bare numbers in inches, pounds and psi."""
