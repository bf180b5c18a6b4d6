using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tolerance;
using Spurless.Sites.Responses;
using Spurless.Sites.Tolerances;

namespace Spurless.Sites.Tests.Responses;

/// <summary>What a response's pictures and a tolerance's tables show: the pass-band and everything asked about lies in them.</summary>
public sealed class ResponseFramesTests
{
    /// <summary>A shunt tank of the resonance and loaded Q that are asked for, between 50 ohm.</summary>
    private static CircuitTwoPort Tank(double f0, double q)
    {
        double w0 = 2 * Math.PI * f0, c = 2 * q / (50 * w0);
        return new CircuitTwoPort(CircuitSolver.Create(new Circuit
        {
            Name = "tank",
            PortIn = "a",
            PortOut = "a",
            Parts =
            [
                new Inductor { Name = "L1", From = "a", To = Circuit.Ground, Inductance = PartValue.Known(1 / (w0 * w0 * c)) },
                new Capacitor { Name = "C1", From = "a", To = Circuit.Ground, Capacitance = PartValue.Known(c) },
            ],
        }));
    }

    private static readonly Gen<(double F0, double Q, double[] Carriers)> _cases =
        Gen.Select(Gen.Double[10e6, 400e6], Gen.Double[2, 40], Gen.Double[5e6, 900e6].Array[0, 6]);

    [Fact]
    public void Of_holds_the_pass_band_and_every_carrier() => _cases.Sample(static (f0, q, carriers) =>
    {
        CircuitTwoPort tank = Tank(f0, q);
        ResponseResult result = ResponseCalculator.Compute(tank, "tank", [f0 * 0.9, f0 * 1.1], null, CancellationToken.None);
        ResponseFrames frames = ResponseFrames.Of(result, tank, carriers);
        Passband band = result.Passband!;
        Assert.True(frames.HasPlots);
        Assert.True(frames.WideFromHz <= frames.CloseFromHz && frames.CloseToHz <= frames.WideToHz);
        Assert.True(frames.CloseFromHz < band.Low3DbHz && frames.CloseToHz > band.High3DbHz);
        Assert.True(frames.WideFromHz <= band.CentreHz / 2 * (1 + 1e-9) && frames.WideToHz >= band.CentreHz * 2 * (1 - 1e-9));

        // A carrier stands within, and not on the edge.
        Assert.All(carriers, c => Assert.True(c > frames.WideFromHz && c < frames.WideToHz));
    }, iter: 60);

    /// <summary>Frequencies of a table and of pictures rise, each once, hold what is asked and the edges of what must pass.</summary>
    [Fact]
    public void Grids_rise_and_hold_what_must_pass() => Gen.Select(_cases, Gen.Double[0.6, 0.95], Gen.Double[1.05, 1.5]).Sample(
        static (one, low, high) =>
        {
            CircuitTwoPort tank = Tank(one.F0, one.Q);
            MaskLine[] mask = [new(one.F0 * low, one.F0 * high, MostLossDb: 3), new(one.F0 * 3, one.F0 * 3, LeastLossDb: 10)];
            double[] table = ToleranceGrid.ForTable(tank, mask), plots = ToleranceGrid.ForPlots(tank, "tank", mask, one.Carriers);
            foreach (double[] grid in new[] { table, plots })
            {
                Assert.Equal(grid.Distinct().Order(), grid);
                Assert.All(new[] { mask[0].FromHz, (mask[0].FromHz + mask[0].ToHz) / 2, mask[0].ToHz }, f => Assert.Contains(f, grid));
                Assert.True(grid[0] <= mask[0].FromHz && grid[^1] >= mask[1].ToHz * (1 - 1e-9));
            }

            Assert.All(one.Carriers, c => Assert.Contains(c, plots));
        }, iter: 40);
}
