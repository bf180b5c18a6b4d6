using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Numerics;
using Spurless.Radio.Quantities;

namespace Spurless.Circuits.Measured;

/// <summary>
/// A measured one- or two-port between and on its points.
/// </summary>
/// <remarks>
/// Time convention e^{+jwt}, port 1 the file's first; S-parameters in <see cref="References"/>. Between two points each
/// complex value runs along the straight line between theirs, once the delay of the ports' lines is taken out (<see cref="Delays"/>): a
/// passive
/// pair of points stays passive, and the error is the less the less the phase still turns from point to point (at 10 degrees 0.4 % in the
/// middle
/// at most, by the chord's height; <see cref="Density"/> says where it is too much).
/// Outside the points there are no values: nothing is extrapolated.
/// </remarks>
public sealed class MeasuredTwoPort : ITwoPort
{
    private readonly ImmutableArray<double> _frequenciesHz;
    private readonly ImmutableArray<ScatteringMatrix> _points;

    private MeasuredTwoPort(
        string name,
        int ports,
        ImmutableArray<double> frequenciesHz,
        ImmutableArray<ScatteringMatrix> points,
        ImmutableArray<Complex> references)
    {
        Name = name;
        Ports = ports;
        _frequenciesHz = frequenciesHz;
        _points = points;
        References = references;
        Passivity = Passivity.Of(ports, frequenciesHz.AsSpan(), points.AsSpan());
        Delays = PortDelays.Of(ports, frequenciesHz.AsSpan(), points.AsSpan());
        Density = SweepDensity.Of(ports, frequenciesHz.AsSpan(), points.AsSpan(), Delays);
    }

    /// <summary>The file's name as the user gave it.</summary>
    public string Name { get; }

    /// <summary>Number of ports, 1 or 2; of a one-port S11 alone has values, the others are NaN.</summary>
    public int Ports { get; }

    /// <summary>Reference impedance of each port in ohms.</summary>
    public ImmutableArray<Complex> References { get; }

    /// <inheritdoc/>
    public Complex Reference1 => References[0];

    /// <inheritdoc/>
    public Complex Reference2 => References[^1];

    /// <summary>The measured frequencies in hertz, rising.</summary>
    public ImmutableArray<double> FrequenciesHz => _frequenciesHz;

    /// <summary>The measured S-parameters in <see cref="References"/>.</summary>
    public ImmutableArray<ScatteringMatrix> Points => _points;

    /// <summary>Lowest measured frequency in hertz.</summary>
    public double LowestHz => _frequenciesHz[0];

    /// <summary>Highest measured frequency in hertz.</summary>
    public double HighestHz => _frequenciesHz[^1];

    /// <summary>Whether the points give out more power than they get, and how much.</summary>
    public Passivity Passivity { get; }

    /// <summary>Delays that are taken out between points.</summary>
    public PortDelays Delays { get; }

    /// <summary>Whether the points lie close enough for what they show.</summary>
    public SweepDensity Density { get; }

    /// <summary>What must stand beside every figure that rests on the sweep.</summary>
    public IEnumerable<NetworkRemark> Remarks =>
        Passivity.IsPassive ? Density.Remarks : [new NetworkRemark.GivesOutPower(Passivity), .. Density.Remarks];

    /// <summary>The two-port of a file.</summary>
    public static MeasuredTwoPort From(TouchstoneData data)
    {
        ArgumentNullException.ThrowIfNull(data);
        return new MeasuredTwoPort(data.Name, data.Ports, data.FrequenciesHz, data.Points, data.References);
    }

    /// <summary>Whether a frequency lies on or between the measured points.</summary>
    public bool Covers(double frequencyHz) => frequencyHz >= LowestHz && frequencyHz <= HighestHz;

    /// <summary>S-parameters at a frequency, in <see cref="References"/>.</summary>
    /// <param name="frequencyHz">Frequency in hertz.</param>
    /// <param name="s">The values; all zero where there are none.</param>
    /// <returns>False outside the measured range.</returns>
    public bool TryAt(double frequencyHz, out ScatteringMatrix s)
    {
        s = default;
        if (!Covers(frequencyHz))
        {
            return false;
        }

        GridPlace place = Grid.Locate(_frequenciesHz.AsSpan(), frequencyHz);
        s = place.Part == 0
            ? _points[place.Below]
            : Delays.Shift(
                ScatteringMatrix.Between(
                    Delays.Shift(_points[place.Below], _frequenciesHz[place.Below], 1),
                    Delays.Shift(_points[place.Below + 1], _frequenciesHz[place.Below + 1], 1),
                    place.Part),
                frequencyHz,
                -1);
        return true;
    }

    /// <summary>S-parameters at a frequency within the measured range.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The frequency lies outside it; the message names the missing span.</exception>
    public ScatteringMatrix At(double frequencyHz) =>
        TryAt(frequencyHz, out ScatteringMatrix s)
            ? s
            : throw new ArgumentOutOfRangeException(nameof(frequencyHz), MissingSpan(frequencyHz, frequencyHz) ?? "not a frequency");

    /// <summary>What the measurement lacks of a wanted span, as a finding for the user; null where it covers it.</summary>
    /// <param name="fromHz">Lowest wanted frequency in hertz.</param>
    /// <param name="toHz">Highest wanted frequency in hertz.</param>
    public string? MissingSpan(double fromHz, double toHz)
    {
        List<string> missing = [];
        if (fromHz < LowestHz)
        {
            missing.Add(Span(fromHz, Math.Min(toHz, LowestHz)));
        }

        if (toHz > HighestHz)
        {
            missing.Add(Span(Math.Max(fromHz, HighestHz), toHz));
        }

        return missing.Count == 0
            ? null
            : $"{Name} was measured from {Megahertz(LowestHz)} to {Megahertz(HighestHz)}; {string.Join(" and ", missing)} is missing";
    }

    private static string Span(double fromHz, double toHz) =>
        fromHz == toHz ? Megahertz(fromHz) : $"{Megahertz(fromHz)} to {Megahertz(toHz)}";

    /// <summary>The same network in a real reference, the same on all ports.</summary>
    /// <param name="impedanceOhm">Reference in ohms, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The impedance is not above 0 and finite.</exception>
    /// <exception cref="ArithmeticException">A point has no S-parameters in that reference (a source that would oscillate into
    /// it).</exception>
    public MeasuredTwoPort InReference(double impedanceOhm)
    {
        if (!(impedanceOhm > 0) || !double.IsFinite(impedanceOhm))
        {
            throw new ArgumentOutOfRangeException(nameof(impedanceOhm), "the reference must be above 0 ohm and finite");
        }

        Complex to = new(impedanceOhm, 0);
        if (References.All(z => z == to))
        {
            return this;
        }

        ImmutableArray<ScatteringMatrix>.Builder points = ImmutableArray.CreateBuilder<ScatteringMatrix>(_points.Length);
        foreach (ScatteringMatrix s in _points)
        {
            ScatteringMatrix? moved = Ports == 2
                ? TwoPortAlgebra.Renormalise(s, References[0], References[1], to, to)
                : ParameterConversion.Renormalise(s.S11, References[0], to) is Complex s11 ? s with { S11 = s11 } : null;
            points.Add(moved ?? throw new ArithmeticException(
                string.Create(CultureInfo.InvariantCulture, $"{Name} has no S-parameters in {impedanceOhm} ohm at one of its points")));
        }

        return new MeasuredTwoPort(Name, Ports, _frequenciesHz, points.MoveToImmutable(), [.. Enumerable.Repeat(to, Ports)]);
    }

    private static string Megahertz(double hertz) => MegahertzText.Of(hertz, 0, 6) + " MHz";
}
