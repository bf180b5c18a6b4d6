using Spurless.Circuits.Measured;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Drawing.Responses;
using Spurless.Drawing.Studies;
using Spurless.Reports.Responses;
using Spurless.Sites.Responses;
using Spurless.Workbench.Bench;

namespace Spurless.Reports.Bench;

/// <summary>
/// What the bench's pictures keep while values move: axes, the site's carriers and needs, the sweep. Made of the circuit as its file has
/// it, so that nothing jumps under a slider.
/// </summary>
public sealed class BenchFrame
{
    private const int MostReadings = 400;

    private BenchFrame(ResponseView view, string name, SiteNeeds? needs, string? sweepName, MeasuredTwoPort? sweep)
    {
        Name = name;
        Needs = needs;
        (SweepName, Sweep) = (sweepName, sweep);
        Carriers = view.Carriers;
        (WideFrom, WideTo, CloseFrom, CloseTo) = (view.WideFrom, view.WideTo, view.DetailFrom, view.DetailTo);
        (Wide, Close, ReturnLoss) = (view.Magnitude, view.PassBand, view.ReturnLoss);
    }

    /// <summary>The circuit's name.</summary>
    public string Name { get; }

    /// <summary>What the site needs; null without one.</summary>
    public SiteNeeds? Needs { get; }

    /// <summary>The sweep's name; null without one.</summary>
    public string? SweepName { get; }

    /// <summary>The sweep; null without one.</summary>
    public MeasuredTwoPort? Sweep { get; }

    /// <summary>The site's carriers with the letters of the study.</summary>
    public IReadOnlyList<LetteredCarrier> Carriers { get; }

    /// <summary>The receiver's channel in hertz; null without a site.</summary>
    public long? ChannelHz => Needs?.Receiver.FrequencyHz;

    /// <summary>Another circuit or sweep that is laid beside; null for none.</summary>
    public BenchBeside? Beside { get; private init; }

    internal double WideFrom { get; }

    internal double WideTo { get; }

    internal double CloseFrom { get; }

    internal double CloseTo { get; }

    internal ResponsePlotModel Wide { get; }

    internal ResponsePlotModel Close { get; }

    internal ResponsePlotModel ReturnLoss { get; }

    /// <summary>The frame for a circuit as its file has it.</summary>
    /// <param name="network">The network.</param>
    /// <param name="name">The circuit's name.</param>
    /// <param name="needs">What a site needs; null for none.</param>
    /// <param name="sweepName">Name of a measured sweep; null for none.</param>
    /// <param name="sweep">The sweep; null for none.</param>
    /// <param name="beside">Another circuit or sweep to lay beside: its name, and its network; null for none.</param>
    /// <returns>The frame; null where the network passes nothing that could be framed.</returns>
    public static BenchFrame? Of(
        CircuitTwoPort network,
        string name,
        SiteNeeds? needs,
        string? sweepName,
        MeasuredTwoPort? sweep,
        (string Name, CircuitTwoPort? Circuit, MeasuredTwoPort? Sweep)? beside = null)
    {
        ResponseView view = new(new ResponseAnswer
        {
            Result = ResponseCalculator.Compute(network, name, ResponseCalculator.DefaultFrequencies(network)),
            Network = network,
            Circuit = null,
            Receiver = needs?.Receiver,
        });
        if (!view.HasPlots)
        {
            return null;
        }

        BenchCurve? other = beside?.Circuit is { } circuit
            ? BenchCurve.Of(circuit, view.WideFrom, view.WideTo, view.DetailFrom, view.DetailTo)
            : null;
        return new BenchFrame(view, name, needs, sweepName, sweep)
        {
            Beside = beside is { } b && (other is not null || b.Sweep is not null) ? new BenchBeside(b.Name, other, b.Sweep) : null,
        };
    }

    /// <summary>The letter of a carrier.</summary>
    public string LetterOf(CarrierNeed need) => Carriers.First(c => c.Index == need.Emitter).Letter;

    /// <summary>Points of the sweep in a range, thinned evenly; <paramref name="value"/> gives the plot's quantity.</summary>
    internal static IReadOnlyList<PlotReading> Readings(
        MeasuredTwoPort? of, double from, double to, Func<Circuits.TwoPorts.ScatteringMatrix, double> value)
    {
        if (of is not { } sweep)
        {
            return [];
        }

        int[] within =
        [
            .. Enumerable.Range(0, sweep.FrequenciesHz.Length).Where(i => sweep.FrequenciesHz[i] >= from && sweep.FrequenciesHz[i] <= to),
        ];
        int step = Math.Max(1, within.Length / MostReadings);
        return [.. within.Where((_, at) => at % step == 0).Select(i => new PlotReading(sweep.FrequenciesHz[i], value(sweep.Points[i])))];
    }

    /// <summary>The sweep's input reflections in the close range, at most as many as readings; empty without one.</summary>
    internal IReadOnlyList<System.Numerics.Complex> Reflections(MeasuredTwoPort? of)
    {
        if (of is not { } sweep)
        {
            return [];
        }

        int[] within =
        [
            .. Enumerable.Range(0, sweep.FrequenciesHz.Length).Where(
                i => sweep.FrequenciesHz[i] >= CloseFrom && sweep.FrequenciesHz[i] <= CloseTo),
        ];
        int step = Math.Max(1, within.Length / MostReadings);
        return [.. within.Where((_, at) => at % step == 0).Select(i => sweep.Points[i].S11)];
    }
}
