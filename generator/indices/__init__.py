"""Published indices and checks computed from a guide, every number with its workings; our own measure beside them."""
