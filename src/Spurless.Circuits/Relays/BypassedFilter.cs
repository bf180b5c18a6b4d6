using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Relays;

/// <summary>
/// A filter as it stands in the line while the relay is at rest: the open contacts leave a capacitance from port to port, and the closed
/// ones have a loss, a matched one in front of port 1.
/// </summary>
public sealed class BypassedFilter : ITwoPort
{
    private readonly ITwoPort _filter;
    private readonly double _openF;
    private readonly double _gain;

    /// <summary>Puts contacts round a filter.</summary>
    /// <param name="filter">The filter.</param>
    /// <param name="openF">Capacitance of the open contacts from port to port in farads, at least 0.</param>
    /// <param name="contactLossDb">Loss of the closed contacts in dB, at least 0; 0 to look at the open ones alone.</param>
    public BypassedFilter(ITwoPort filter, double openF, double contactLossDb)
    {
        ArgumentNullException.ThrowIfNull(filter);
        ArgumentOutOfRangeException.ThrowIfNegative(openF);
        ArgumentOutOfRangeException.ThrowIfNegative(contactLossDb);
        (_filter, _openF, _gain) = (filter, openF, Math.Pow(10, -contactLossDb / 20));
    }

    /// <inheritdoc/>
    public double LowestHz => _filter.LowestHz;

    /// <inheritdoc/>
    public double HighestHz => _filter.HighestHz;

    /// <inheritdoc/>
    public Complex Reference1 => _filter.Reference1;

    /// <inheritdoc/>
    public Complex Reference2 => _filter.Reference2;

    /// <inheritdoc/>
    public ScatteringMatrix At(double frequencyHz)
    {
        ScatteringMatrix s = _filter.At(frequencyHz);
        if (_openF > 0 && TwoPortAlgebra.ToAdmittance(s, Reference1, Reference2) is { } y)
        {
            // A through has no admittances: a capacitance across it changes nothing.
            Complex c = new(0, 2 * Math.PI * frequencyHz * _openF);
            s = TwoPortAlgebra.FromAdmittance(y + new TwoPortMatrix(c, -c, -c, c), Reference1, Reference2) ?? s;
        }

        return new ScatteringMatrix(s.S11 * _gain * _gain, s.S12 * _gain, s.S21 * _gain, s.S22);
    }

    /// <summary>
    /// Share of a transmitter's power that heats the filter while the contacts are over: the line goes straight through, and the filter
    /// hangs on it by an open contact at either port.
    /// </summary>
    /// <param name="filter">The filter.</param>
    /// <param name="openF">Capacitance of each open contact in farads.</param>
    /// <param name="frequencyHz">Frequency in hertz.</param>
    /// <param name="lineOhm">Impedance of source and load in ohms.</param>
    public static double ShareWhileOver(ITwoPort filter, double openF, double frequencyHz, double lineOhm)
    {
        ArgumentNullException.ThrowIfNull(filter);
        Complex c = new(0, 2 * Math.PI * frequencyHz * openF);
        if (openF <= 0
            || TwoPortAlgebra.ToAdmittance(filter.At(frequencyHz), filter.Reference1, filter.Reference2) is not { } y
            || (y + new TwoPortMatrix(c, Complex.Zero, Complex.Zero, c)).Inverse() is not { } z)
        {
            return 0;
        }

        // Voltages at the filter's ports for one volt on the line, and the currents that the open contacts pass.
        Complex v1 = c * (z.M11 + z.M12), v2 = c * (z.M21 + z.M22), i1 = c * (1 - v1), i2 = c * (1 - v2);
        double heat = (Complex.Conjugate(v1) * i1).Real + (Complex.Conjugate(v2) * i2).Real;
        Complex line = 2 / (2 + (lineOhm * (i1 + i2))); // over the voltage on the line without the branch
        return heat * lineOhm * line.Magnitude * line.Magnitude;
    }
}
