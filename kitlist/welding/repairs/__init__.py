"""Parts, joints and steel, which rod suits which repair, and how many it takes."""
