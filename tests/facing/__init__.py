"""Every page of the Customer side on every screen: what is shown there, and what is wrong with its layout."""
