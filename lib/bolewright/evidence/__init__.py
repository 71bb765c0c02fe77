"""What a package proves: its files taken out of the PDF, checked again, compared with another."""
