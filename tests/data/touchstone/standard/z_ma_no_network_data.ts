! impedances of one port, no [Network Data]
[Version] 2.0
# MHz Z MA
[Number of Ports] 1
[Number of Frequencies] 5
1 11 10
2 12 20
3 13 30
4 14 40
5 15 50
