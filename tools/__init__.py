"""Tools of the workshop behind the workshop: accuracy page, picture of the README."""
