"""What follows once an order is ready: telling its owner, reminders, who may collect it, who may hear of it.

May use what the services may use. The program itself reaches nobody: it says whom to tell, and keeps who was.
"""
