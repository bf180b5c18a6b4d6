[Version] 2.0
# MHz S RI R 50
[Number of Ports] 1
[Number of Frequencies] 3
[Network Data]
145 0.1 0.2
146 0.1 0.3
[End]
