# Actions at the bench, by their code.
splice = splice
re-anchor = re-anchor the leader
straighten = straighten or cut out the bad length
shell-swap = move the reels into a donor shell
reel-swap = clear the broken reel, wind over or fit a donor reel
lid-swap = fit a donor lid
inspect-sound = look at the tape for the missing sound
