"""Who is proven, not typed: users of computers that belong to a person, and tokens issued to one.

May use `core.services.own_shop` and the store; a PIN is `core.services.own_shop.people`.
"""
