using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Response;

/// <summary>What a network does at one frequency.</summary>
/// <param name="FrequencyHz">Frequency in hertz.</param>
/// <param name="S">S-parameters in the network's own references; of a one-port S11 only, the others are NaN.</param>
/// <param name="GroupDelayS">Group delay <c>-d arg(S21)/dw</c> in seconds; null where nothing passes.</param>
/// <param name="InputImpedanceOhm">Impedance into port 1 with port 2 on its reference, in ohms; null where it is infinite.</param>
public readonly record struct ResponsePoint(double FrequencyHz, ScatteringMatrix S, double? GroupDelayS, Complex? InputImpedanceOhm);
