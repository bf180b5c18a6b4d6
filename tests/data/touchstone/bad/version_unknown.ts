[Version] 3.0
# MHz S RI R 50
[Number of Ports] 1
[Number of Frequencies] 1
[Network Data]
145 0.1 0.2
[End]
