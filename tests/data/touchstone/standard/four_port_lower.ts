! four ports, lower triangles, [Reference] over two lines
[Version] 2.0
# GHz S MA R 50
[Number of Ports] 4
[Number of Frequencies] 2
[Reference] 50 75
0.01 0.01
[Matrix Format] Lower
[Network Data]
5.00000 0.60 161.24
 0.40 -42.20 0.60 161.20
 0.42 -66.58 0.53 -79.34 0.60 161.24
 0.53 -79.34 0.42 -66.58 0.40 -42.20 0.60 161.24
6.00000 0.60 161.24
 0.40 -42.20 0.60 161.20
 0.42 -66.58 0.53 -79.34 0.60 161.24
 0.53 -79.34 0.42 -66.58 0.40 -42.20 0.60 161.24
