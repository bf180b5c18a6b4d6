using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Relays;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tests.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Relays;

/// <summary>
/// A filter with a relay's contacts round it, against the same drawn as a circuit and solved node by node: the open contact is a capacitor
/// like any other.
/// </summary>
public sealed class BypassedFilterTests
{
    public static TheoryData<double, double> Contacts => new()
    {
        { 0.1e-12, 0 }, { 0.8e-12, 0 }, { 0.8e-12, 0.1 }, { 3e-12, 0.3 }, { 0, 0.2 }, { 12e-12, 0 },
    };

    [Theory]
    [MemberData(nameof(Contacts))]
    public void At_is_the_circuit_with_a_capacitor_across_it(double openF, double lossDb)
    {
        Circuit filter = KnownCircuits.Demo();
        Circuit drawn = filter with
        {
            Parts =
            [
                .. filter.Parts,
                .. openF > 0
                    ? (Part[])[Across(filter, openF)] : [],
            ],
        };
        double[] hertz = [30e6, 120e6, 145.05e6, 160e6, 466e6, 900e6];
        ScatteringMatrix[] expected = CircuitSolver.Create(drawn).Solve(hertz);
        BypassedFilter bypassed = new(new CircuitTwoPort(CircuitSolver.Create(filter)), openF, lossDb);
        double gain = Math.Pow(10, -lossDb / 20);
        for (int i = 0; i < hertz.Length; i++)
        {
            ScatteringMatrix s = bypassed.At(hertz[i]);

            // The contact's loss is a matched one ahead of port 1: once through, twice for what comes back from port 1.
            Near(expected[i].S21 * gain, s.S21, hertz[i]);
            Near(expected[i].S12 * gain, s.S12, hertz[i]);
            Near(expected[i].S11 * gain * gain, s.S11, hertz[i]);
            Near(expected[i].S22, s.S22, hertz[i]);
        }
    }

    /// <summary>
    /// The least isolation against looking at every one of 60,000 frequencies: never better than the worst of them, and no more than the
    /// grid's step can hide (0.05 dB) worse.
    /// </summary>
    [Theory]
    [InlineData(0.1e-12)]
    [InlineData(0.8e-12)]
    [InlineData(5e-12)]
    public void Find_is_the_worst_of_every_frequency_looked_at(double openF)
    {
        Circuit filter = KnownCircuits.Demo();
        CircuitTwoPort alone = new(CircuitSolver.Create(filter));
        LeastIsolation found = OpenContacts.Find(alone, openF)!;
        double[] hertz = [.. Enumerable.Range(0, 60_001).Select(static i => 1e6 * Math.Pow(1000, i / 60_000.0))];
        ScatteringMatrix[] s = CircuitSolver.Create(filter).Solve(hertz);
        ScatteringMatrix[] with = CircuitSolver.Create(filter with
        {
            Parts = [.. filter.Parts, Across(filter, openF)],
        }).Solve(hertz);
        double least = s.Min(static x => x.InsertionLossDb);
        int worst = Enumerable.Range(0, hertz.Length).Where(i => s[i].InsertionLossDb >= least + 20).MinBy(i => with[i].InsertionLossDb);
        Assert.InRange(found.LossDb, with[worst].InsertionLossDb - 0.05, with[worst].InsertionLossDb + 1e-6);
        Assert.Equal(hertz[worst], found.FrequencyHz, hertz[worst] * 2e-3);
        Assert.True(found.AloneDb >= least + 20 - 0.01, $"{found.AloneDb} and {least}");
    }

    [Fact]
    public void Find_more_capacitance_never_keeps_more_away()
    {
        CircuitTwoPort alone = new(CircuitSolver.Create(KnownCircuits.Demo()));
        double[] losses = [.. ((double[])[0.05e-12, 0.2e-12, 0.8e-12, 2e-12, 6e-12]).Select(c => OpenContacts.Find(alone, c)!.LossDb)];
        Assert.Equal(losses.OrderDescending(), losses);
    }

    [Fact]
    public void Find_a_pad_has_no_stop_band()
    {
        Circuit pad = new()
        {
            Name = "pad",
            PortIn = "a",
            PortOut = "b",
            Parts = [new Resistor { Name = "R", From = "a", To = "b", Resistance = PartValue.Known(100) }],
        };
        Assert.Null(OpenContacts.Find(new CircuitTwoPort(CircuitSolver.Create(pad)), 1e-12));
    }

    /// <summary>
    /// The heat while the contacts are over, against the circuit as it then stands: a through line, the filter hanging on it by two
    /// capacitors. What the line loses to it is what does not come out and does not go back.
    /// </summary>
    [Theory]
    [InlineData(0.3e-12, 145.65e6)]
    [InlineData(0.8e-12, 145.05e6)]
    [InlineData(0.8e-12, 433e6)]
    [InlineData(4e-12, 160e6)]
    public void ShareWhileOver_is_what_the_line_loses(double openF, double hertz)
    {
        Circuit filter = KnownCircuits.Demo();
        Circuit over = filter with
        {
            PortIn = "line",
            PortOut = "line2",
            Parts =
            [
                .. filter.Parts,
                new Resistor { Name = "RX", From = "line", To = "line2", Resistance = PartValue.Known(1e-9) },
                new Capacitor { Name = "CI", From = "line", To = filter.PortIn, Capacitance = PartValue.Known(openF) },
                new Capacitor { Name = "CO", From = "line2", To = filter.PortOut, Capacitance = PartValue.Known(openF) },
            ],
        };
        ScatteringMatrix s = CircuitSolver.Create(over).Solve([hertz])[0];
        double lost = 1 - Math.Pow(s.S11.Magnitude, 2) - Math.Pow(s.S21.Magnitude, 2);
        double share = BypassedFilter.ShareWhileOver(new CircuitTwoPort(CircuitSolver.Create(filter)), openF, hertz, 50);
        Assert.Equal(lost, share, 1e-6 * lost + 1e-9);
    }

    private static Capacitor Across(Circuit filter, double farads) =>
        new() { Name = "CX", From = filter.PortIn, To = filter.PortOut, Capacitance = PartValue.Known(farads) };

    private static void Near(Complex expected, Complex actual, double hertz) =>
        Assert.True((expected - actual).Magnitude < 1e-9, $"at {hertz / 1e6} MHz: {expected} expected, {actual} found");
}
