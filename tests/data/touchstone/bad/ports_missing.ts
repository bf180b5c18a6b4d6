[Version] 2.0
# MHz S RI R 50
[Number of Frequencies] 1
[Network Data]
145 0.1 0.2
[End]
