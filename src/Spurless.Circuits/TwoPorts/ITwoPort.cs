using System.Numerics;

namespace Spurless.Circuits.TwoPorts;

/// <summary>
/// Anything that has two-port S-parameters over a range of frequencies: a sweep, a formula.
/// S-parameters are in power waves (see <see cref="TwoPortAlgebra"/>), time convention e^{+jwt}.
/// </summary>
public interface ITwoPort
{
    /// <summary>Least frequency in hertz at which it is defined; 0 where there is no limit.</summary>
    double LowestHz { get; }

    /// <summary>Greatest frequency in hertz at which it is defined; infinity where there is no limit.</summary>
    double HighestHz { get; }

    /// <summary>Reference impedance of port 1 in ohms, real part above 0.</summary>
    Complex Reference1 { get; }

    /// <summary>Reference impedance of port 2 in ohms, real part above 0.</summary>
    Complex Reference2 { get; }

    /// <summary>
    /// S-parameters at a frequency within <see cref="LowestHz"/> and <see cref="HighestHz"/>. Safe for use by several threads.
    /// </summary>
    /// <param name="frequencyHz">Frequency in hertz.</param>
    ScatteringMatrix At(double frequencyHz);
}
