using Spurless.Circuits.Measured;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Reports.Drawing;
using Spurless.Reports.Drawing.Responses;
using Spurless.Reports.Html;
using Spurless.Sites.Bench;

namespace Spurless.Reports.Bench;

/// <summary>
/// What the bench's pictures keep while values move: axes, the site's carriers and needs, the sweep. Made of the circuit as its file has it, so that nothing
/// jumps under a slider.
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
    /// <returns>The frame; null where the network passes nothing that could be framed.</returns>
    public static BenchFrame? Of(CircuitTwoPort network, string name, SiteNeeds? needs, string? sweepName, MeasuredTwoPort? sweep)
    {
        ResponseView view = new(new ResponseReportInput
        {
            Result = ResponseCalculator.Compute(network, name, ResponseCalculator.DefaultFrequencies(network)),
            Network = network,
            Circuit = null,
            Receiver = needs?.Receiver,
        });
        return view.HasPlots ? new BenchFrame(view, name, needs, sweepName, sweep) : null;
    }

    /// <summary>The letter of a carrier.</summary>
    public string LetterOf(CarrierNeed need) => Carriers.First(c => c.Index == need.Emitter).Letter;

    /// <summary>Points of the sweep in a range, thinned evenly; <paramref name="value"/> gives the plot's quantity.</summary>
    internal IReadOnlyList<PlotReading> Readings(double from, double to, Func<Circuits.TwoPorts.ScatteringMatrix, double> value)
    {
        if (Sweep is not { } sweep)
        {
            return [];
        }

        int[] within = [.. Enumerable.Range(0, sweep.FrequenciesHz.Length).Where(i => sweep.FrequenciesHz[i] >= from && sweep.FrequenciesHz[i] <= to)];
        int step = Math.Max(1, within.Length / MostReadings);
        return [.. within.Where((_, at) => at % step == 0).Select(i => new PlotReading(sweep.FrequenciesHz[i], value(sweep.Points[i])))];
    }
}
