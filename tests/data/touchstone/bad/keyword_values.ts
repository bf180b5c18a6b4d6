[Version] 2.0
# MHz S RI R 50
[Number of Ports] two
[Two-Port Data Order] 21-12
[Number of Frequencies] 0
[Reference] fifty
[Matrix Format] Half
[Network Data
