! the same network as inverse hybrid parameters
[Version] 2.0
# kHz G MA R 1
[Number of Ports] 2
[Two-Port Data Order] 21_12
[Number of Frequencies] 1
[Matrix Format] Full
[Network Data]
2 1.03818 13.03373 5.61562 4.03729 0.06292 -76.627 1.49435 1.03729
