using CsCheck;
using Spurless.Circuits.Coils;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Coils;

/// <summary>Line and helical resonators: scaling laws, and the line against a numerical integral and against the circuit solver.</summary>
public sealed class ResonatorLawsTests
{
    private static readonly Gen<(double Hertz, double Inner, double Ratio, double Load)> _lines =
        Gen.Select(Gen.Double[20e6, 500e6], Gen.Double[3e-3, 30e-3], Gen.Double[1.3, 8], Gen.Double[0, 40e-12]);

    /// <summary>
    /// Q is <c>w</c> times the peak magnetic energy over the mean losses, summed in 4,000 pieces of line with the current <c>cos(2 pi f
    /// z/c)</c> from the short on, and the end plate as rings of its own.
    /// </summary>
    [Fact]
    public void CoaxialResonator_Q_is_energy_over_losses_summed_piece_by_piece() => _lines.Sample(static (hertz, inner, ratio, load) =>
    {
        double outer = inner * ratio, w = 2 * Math.PI * hertz, surface = Conductor.Copper.SurfaceOhm(hertz);
        CoaxialResonator line = CoaxialResonator.For(hertz, inner, outer, load);
        const int pieces = 4_000;
        double step = line.LengthM / pieces, energy = 0, loss = 0;
        for (int i = 0; i < pieces; i++)
        {
            double current = Math.Cos(w * (i + 0.5) * step / 299_792_458);
            energy += 2e-7 * Math.Log(ratio) * current * current / 2 * step;
            loss += surface * ((1 / (Math.PI * inner)) + (1 / (Math.PI * outer))) * current * current / 2 * step;
        }

        double wide = (outer - inner) / 2 / pieces;
        for (int i = 0; i < pieces; i++)
        {
            double radius = (inner / 2) + ((i + 0.5) * wide);
            loss += surface * wide / (2 * Math.PI * radius) / 2;
        }

        Assert.Equal(1, line.Q / (w * energy / loss), 1e-5);
    });

    /// <summary>
    /// The solver's own shorted line with the capacitor across it resonates there: what comes in at the open end is not short-circuited.
    /// </summary>
    [Fact]
    public void CoaxialResonator_built_of_a_stub_and_its_capacitor_passes_at_its_frequency() =>
        _lines.Sample(static (hertz, inner, ratio, load) =>
    {
        load += 0.1e-12;
        CoaxialResonator line = CoaxialResonator.For(hertz, inner, inner * ratio, load);
        Circuit tank = new()
        {
            Name = "tank",
            PortIn = "a",
            PortOut = "a",
            Parts =
            [
                new Stub
                {
                    Name = "W1",
                    From = "a",
                    To = Circuit.Ground,
                    ImpedanceOhm = line.ImpedanceOhm,
                    Length = PartValue.Known(line.LengthM),
                    End = StubEnd.Short,
                },
                new Capacitor { Name = "C1", From = "a", To = Circuit.Ground, Capacitance = PartValue.Known(load) },
            ],
        };
        ScatteringMatrix s = CircuitSolver.Create(tank).Solve([hertz])[0];
        Assert.Equal(1, s.S21.Magnitude, 1e-9);
        Assert.True(s.S11.Magnitude < 1e-6, $"{s.S11}");
    });

    /// <summary>All dimensions k times, frequency 1/k: the same line, a skin sqrt k times as deep in k times as much metal.</summary>
    [Fact]
    public void CoaxialResonator_k_times_as_large_has_sqrt_k_the_Q() => Gen.Select(_lines, Gen.Double[0.3, 4]).Sample(static (one, k) =>
    {
        CoaxialResonator small = CoaxialResonator.For(one.Hertz, one.Inner, one.Inner * one.Ratio, one.Load);
        CoaxialResonator large = CoaxialResonator.For(one.Hertz / k, one.Inner * k, one.Inner * one.Ratio * k, one.Load * k);
        Assert.Equal(1, large.LengthM / (k * small.LengthM), 1e-12);
        Assert.Equal(small.ImpedanceOhm, large.ImpedanceOhm, 1e-9);
        Assert.Equal(1, large.Q / (Math.Sqrt(k) * small.Q), 1e-12);
        Conductor fourfold = new("four times copper's resistivity", 4 * Conductor.Copper.ResistivityOhmM);
        double worse = CoaxialResonator.For(one.Hertz, one.Inner, one.Inner * one.Ratio, one.Load, fourfold).Q;
        Assert.Equal(1, 2 * worse / small.Q, 1e-12);
    });

    /// <summary>More capacitance at the open end makes it shorter, and a shorter one of the same conductors has less Q.</summary>
    [Fact]
    public void CoaxialResonator_with_more_load_is_shorter_and_worse() => _lines.Sample(static (hertz, inner, ratio, load) =>
    {
        CoaxialResonator plain = CoaxialResonator.For(hertz, inner, inner * ratio, load);
        CoaxialResonator loaded = CoaxialResonator.For(hertz, inner, inner * ratio, load + 1e-12);
        Assert.True(loaded.LengthM < plain.LengthM);
        Assert.InRange(plain.LengthM, 0, 299_792_458 / hertz / 4 * (1 + 1e-12));
        Assert.True(loaded.Q < plain.Q * (1 + 1e-12));
    });

    /// <summary>
    /// By the paper's laws: Q goes with size and root of frequency, turns and impedance with one over both; the wire is half the pitch, so
    /// that as many wires as turns fill half the length.
    /// </summary>
    [Fact]
    public void HelicalResonator_scales_as_its_laws_say() =>
        Gen.Select(Gen.Double[30e6, 500e6], Gen.Double[0.01, 0.1], Gen.Double[0.3, 4], Gen.Bool).Sample(static (hertz, size, k, square) =>
        {
            ShieldShape shape = square ? ShieldShape.Square : ShieldShape.Round;
            HelicalResonator one = HelicalResonator.For(hertz, size, shape), wide = HelicalResonator.For(hertz, k * size, shape);
            HelicalResonator high = HelicalResonator.For(hertz * k, size, shape), same = HelicalResonator.For(hertz / k, size * k, shape);
            Assert.Equal(1, wide.Q / (k * one.Q), 1e-12);
            Assert.Equal(1, high.Q / (Math.Sqrt(k) * one.Q), 1e-12);
            Assert.Equal(1, same.Q / (Math.Sqrt(k) * one.Q), 1e-12);
            Assert.Equal(1, same.Turns / one.Turns, 1e-12);
            Assert.Equal(1, same.ImpedanceOhm / one.ImpedanceOhm, 1e-12);
            Assert.Equal(1, wide.Turns * k / one.Turns, 1e-12);
            Assert.Equal(0.5, one.WireM * one.Turns / one.CoilLengthM, 1e-12);
            Assert.True(one.CoilDiameterM < size && one.CoilLengthM < one.ShieldHeightM);
        });

    /// <summary>
    /// A round shield of 1.2 times the square's side is taken for the same resonator in the paper (D = 1.2 S): turns, impedance and Q
    /// within 5 %.
    /// </summary>
    [Fact]
    public void HelicalResonator_round_and_square_of_equal_room_agree() =>
        Gen.Select(Gen.Double[50e6, 450e6], Gen.Double[0.01, 0.05]).Sample(static (hertz, side) =>
        {
            HelicalResonator square = HelicalResonator.For(hertz, side, ShieldShape.Square);
            HelicalResonator round = HelicalResonator.For(hertz, 1.2 * side, ShieldShape.Round);
            Assert.Equal(1, round.Turns / square.Turns, 0.05);
            Assert.Equal(1, round.ImpedanceOhm / square.ImpedanceOhm, 0.05);
            Assert.Equal(1, round.Q / square.Q, 0.05);
            Assert.Equal(1, round.CoilDiameterM / square.CoilDiameterM, 0.05);
        });
}
