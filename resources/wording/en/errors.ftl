# The frame of every refusal of an input: where, what was found there, what is accepted.
wrong_input = { $place }: found { $found }; { $accepted }.
nothing_entered = { $place }: nothing was entered; { $accepted }.
