"""Who sits in it: measured and predicted body, mass centre, room the body needs."""
