"""What a window must know of a step before it is sent; brings no database along."""
