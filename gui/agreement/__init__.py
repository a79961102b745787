"""What Phone and Bench share about an agreement: the call card, who agreed and how, versions in words.

May use the shared widgets and the steps of the services. A dialog shows and hands on what was said; whoever
opens it runs the step.
"""
