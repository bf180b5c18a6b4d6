[Version] 2.0
# MHz Y RI R 20
[Number of Ports] 2
[Two-Port Data Order] 12_21
[Number of Frequencies] 1
[Network Data]
100 0.05 0 -0.05 0 -0.05 0 0.05 0
[End]
