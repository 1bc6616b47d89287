"""The bar moving: a bend as pictures of its stroke, and the part on its way off the nose."""
