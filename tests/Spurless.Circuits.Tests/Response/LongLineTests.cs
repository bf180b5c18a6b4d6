using System.Numerics;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Tests.Response;

/// <summary>
/// A long line turns the response once for each half wave: the search for the pass-band has an end, says so, and can be stopped.
/// </summary>
public class LongLineTests
{
    /// <summary>
    /// 75 ohm between 50 ohm: the loss runs between 0 and 0.695 dB (10 lg of 1 + (75/50 - 50/75)^2 / 4), by hand, and has no maximum less
    /// than 3 dB under another: everything is one pass-band.
    /// </summary>
    [Fact]
    public void Find_of_a_line_of_100_m_tells_its_figures()
    {
        PassbandFindings found = PassbandFinder.Find(Network(100), null, TestContext.Current.CancellationToken);
        Assert.False(found.IsTooFine);
        Assert.NotNull(found.Main);
        Assert.InRange(found.Main.LossDb, -1e-9, 1e-6);
        Assert.Null(found.Main.Low3DbHz);
        Assert.Null(found.Main.High3DbHz);
        Assert.Empty(found.Further);
    }

    /// <summary>Today's bound, not the machine's: 10 km turn 66,000 times below 1 GHz (half waves of 0.66 c).</summary>
    [Fact]
    public void Find_of_a_line_of_10_km_says_that_it_turns_too_often()
    {
        PassbandFindings found = PassbandFinder.Find(Network(10e3), null, TestContext.Current.CancellationToken);
        Assert.True(found.IsTooFine);
        Assert.Null(found.Main);
        Assert.Empty(found.Notches);
        ResponseResult result = ResponseCalculator.Compute(
            Network(10e3), "long", [100e6, 200e6], null, TestContext.Current.CancellationToken);
        Assert.Contains(new NetworkRemark.TurnsTooOften(), result.Remarks);
        Assert.Equal(2, result.Points.Length);
    }

    [Fact]
    public void Find_heeds_a_token_that_is_cancelled_while_it_searches()
    {
        using CancellationTokenSource source = new();
        Watched network = new(Network(3e3), 5_000, source);
        Assert.ThrowsAny<OperationCanceledException>(() => PassbandFinder.Find(network, null, source.Token));
        Assert.InRange(network.Asked, 5_000, 5_000 + 2_048); // those that were asked for together
    }

    [Theory]
    [InlineData(10_001, 0.66)]
    [InlineData(1e300, 0.66)]
    [InlineData(1e-9, 0.66)]
    [InlineData(1, 1e-300)]
    [InlineData(1, double.NaN)]
    public void Faults_of_a_line_beyond_sense_name_what_to_write(double metres, double velocity)
    {
        CircuitFault fault = Assert.Single(CircuitCheck.Faults(Made(metres, velocity)));
        Assert.Equal(CircuitFaultKind.BadValue, fault.Kind);
        Assert.Contains("W0", fault.Parts);
        Assert.StartsWith("write ", fault.Remedy, StringComparison.Ordinal);
    }

    private static CircuitTwoPort Network(double metres)
    {
        CircuitSolver? solver = CircuitSolver.TryCreate(Made(metres, 0.66), out IReadOnlyList<CircuitFault> faults);
        Assert.Empty(faults);
        return new CircuitTwoPort(solver!);
    }

    private static Circuit Made(double metres, double velocity) => new()
    {
        Name = "long",
        PortIn = "a",
        PortOut = "b",
        Parts = [new Line { Name = "W0", From = "a", To = "b", ImpedanceOhm = 75, Length = PartValue.Known(metres), Velocity = velocity }],
    };

    /// <summary>A network that cancels after so many frequencies, and counts on.</summary>
    private sealed class Watched(CircuitTwoPort inner, int after, CancellationTokenSource source) : ITwoPort
    {
        public int Asked { get; private set; }

        public double LowestHz => inner.LowestHz;

        public double HighestHz => inner.HighestHz;

        public Complex Reference1 => inner.Reference1;

        public Complex Reference2 => inner.Reference2;

        public ScatteringMatrix At(double frequencyHz)
        {
            if (++Asked == after)
            {
                source.Cancel();
            }

            return inner.At(frequencyHz);
        }
    }
}
