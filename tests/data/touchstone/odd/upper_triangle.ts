[Version] 2.0
# MHz S RI R 50
[Number of Ports] 2
[Two-Port Data Order] 21_12
[Number of Frequencies] 2
[Reference] 50
75
[Matrix Format] Upper
[Network Data]
145 0.1 0.2 0.5 0
 0.1 -0.2
146 0.1 0.3 0.4 0 0.1 -0.3
[End]
