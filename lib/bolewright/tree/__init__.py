"""Tree: stem wood, the bolt in it, the stem's section, sway and growth."""
