! hybrid parameters, reference 1 ohm, version 2
[Version] 2.0
# kHz H MA R 1
[Number of Ports] 2
[Two-Port Data Order] 21_12
[Number of Frequencies] 1
[Matrix Format] Full
[Network Data]
2 .95 -26 3.57 157 .04 76 .66 -14
