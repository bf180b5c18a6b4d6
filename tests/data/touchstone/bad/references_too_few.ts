[Version] 2.0
# MHz S RI R 50
[Number of Ports] 2
[Two-Port Data Order] 21_12
[Number of Frequencies] 1
[Reference] 50
[Network Data]
145 0.1 0.2 0.5 0 0.5 0 0.1 -0.2
[End]
