using System.Globalization;
using System.Text.RegularExpressions;
using Spurless.Circuits.Coils;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Tolerance;
using Spurless.Circuits.TwoPorts;
using Spurless.Drawing.Responses;
using Spurless.Drawing.Schematics;
using Spurless.Reports.Responses;
using Spurless.Sites.Responses;
using Spurless.Sites.Tolerances;

namespace Spurless.Reports.Bench;

/// <summary>What a bench sheet shows: answer, plots with band and demands, rows of its tables.</summary>
internal sealed partial class BenchSheetView
{
    private const int BandRows = 25;
    private readonly BenchSheetInput _input;
    private readonly ResponseView _response;
    private readonly IReadOnlyList<MaskLine> _mask;

    public BenchSheetView(BenchSheetInput input)
    {
        _input = input;
        _mask = input.Tolerance?.Result.Request.Mask ?? [];
        double[] asked = input.Stress is { } s ? [s.Request.FrequencyHz] : [];
        _response = Frames(input.Network, input.Circuit.Name, _mask, asked);
    }

    public bool HasPlots => _response.HasPlots;

    public bool HasBand => Bands.Count > 1;

    public bool HasReturnLoss => HasBand || _mask.Any(static m => m.LeastReturnLossDb is not null);

    /// <summary>The answer: of stress first, for that is what can hurt.</summary>
    public string Answer => Said(_input.Stress is { } stress ? StressWords.Sentence(stress) : _input.Tolerance?.Sentence ?? "");

    /// <summary>What else is to be said under it.</summary>
    public IEnumerable<string> Further
    {
        get
        {
            if (_input.Stress is not null && _input.Tolerance is { } tolerance)
            {
                yield return Said(tolerance.Sentence);
            }

            foreach (string shortfall in _input.Tolerance?.Shortfalls ?? [])
            {
                yield return Said(char.ToUpperInvariant(shortfall[0]) + shortfall[1..] + ".");
            }
        }
    }

    public string Question => string.Join("; ", new[]
    {
        _input.Stress is { } s
            ? StressWriter.Question(s, _input.Circuit.ImpedanceOhm).Replace("ohm", "\u03A9", StringComparison.Ordinal)
            : "",
        _input.Tolerance is { } t ? ToleranceWriter.Question(t.Result) : "",
    }.Where(static q => q.Length > 0));

    public ResponsePlotModel Wide => _response.Magnitude with { ChannelHz = Channel, Overlay = Gain() };

    public ResponsePlotModel Detail => _response.PassBand with { ChannelHz = Channel, Overlay = Gain() };

    public ResponsePlotModel ReturnLoss => _response.ReturnLoss with
    {
        ChannelHz = Channel,
        Overlay = new PlotOverlay
        {
            Band = HasBand
                ? new PlotBand([.. Bands.Select(static b => new PlotSpan(b.FrequencyHz, -b.S11Db.P5, -b.S11Db.P95))], BandWords)
                : null,
            Demands =
            [
                .. _mask
                    .Where(static m => m.LeastReturnLossDb is not null)
                    .Select(static m => new PlotDemand(m.FromHz, m.ToHz, m.LeastReturnLossDb!.Value, Below: true)),
            ],
        },
    };

    /// <summary>Bands for the table, thinned evenly: those of the pass-band's frame first of all.</summary>
    public IReadOnlyList<ToleranceBand> Rows
    {
        get
        {
            if (Bands.Count <= BandRows)
            {
                return Bands;
            }

            ToleranceBand[] near = [.. Bands.Where(b => b.FrequencyHz >= _response.DetailFrom && b.FrequencyHz <= _response.DetailTo)];
            ToleranceBand[] far = [.. Bands.Except(near)];
            return [
                .. Thin(near, 14)
                    .Concat(Thin(far, 10))
                    .Append(_input.Tolerance!.Result.Main!)
                    .Distinct()
                    .OrderBy(static b => b.FrequencyHz),
            ];
        }
    }

    /// <summary>The coils that are given by their dimensions, each computed at the frequency that matters.</summary>
    public IReadOnlyList<(string Name, CoilResult Coil)> Coils =>
        [
            .. _input.Circuit.Parts.OfType<Coil>()
                .Select(
                    c => (
                        c.Name,
                        CoilCalculator.Compute(new CoilGeometry(c.Turns, c.DiameterM, c.LengthM, c.WireM, c.LeadM), Channel ?? Middle))),
        ];

    public double? CoilFrequencyHz => Channel ?? Middle;

    public IEnumerable<string> Assumptions =>
        (_input.Stress is { } stress ? StressWords.Assumptions(stress) : []).Concat(_input.Tolerance?.Assumptions ?? []);

    public IReadOnlyList<string> Cautions => _input.Stress is { } stress ? StressWords.Cautions(stress) :
    [
        "Do not transmit through a filter before its parts' voltages and heat are known: the stress computation tells them.",
        "Radio-frequency voltages burn: no power while the cover is off.",
        "A trimmer is set with a tool that does not conduct, at the least power, by somebody who knows what carries power.",
        "Whether and with what power you may transmit is for the licence, the rules where you are and whoever answers for the site to say.",
        "Figures are computed: measure before money is spent.",
    ];

    /// <summary>The two frames of a network's plots.</summary>
    public static ResponseView Frames(ITwoPort network, string name, IReadOnlyList<MaskLine> mask, IReadOnlyList<double> asked) =>
        new(new ResponseAnswer { Result = ToleranceGrid.Ends(network, name, mask, asked), Network = network, Circuit = null });

    /// <summary>A sentence with its figures held to their units.</summary>
    public static string Said(string sentence) =>
        NumberAndUnit().Replace(sentence.Replace(" x ", " \u00D7 ", StringComparison.Ordinal), "$1\u00A0$2").Replace(
            "'", "\u2019", StringComparison.Ordinal);

    /// <summary>A value of S in dB with its sign.</summary>
    public static string Db(double value, int decimals = 2) =>
        !double.IsFinite(value)
            ? "none"
            : (value < -0.5 * Math.Pow(10, -decimals) ? "\u2212" : "")
                + Math.Abs(value).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    /// <summary>Tolerance of a part in words.</summary>
    public static string Tolerance(Part part) => PartWords.Tolerance(part);

    /// <summary>Loss of a part in words.</summary>
    public static string Loss(Part part) => PartWords.Loss(part);

    private IReadOnlyList<ToleranceBand> Bands => _input.Tolerance?.Result.Bands ?? [];

    private double? Channel => _input.Stress?.Request.FrequencyHz;

    private double? Middle =>
        _response.DetailTo > _response.DetailFrom ? Math.Round(Math.Sqrt(_response.DetailFrom * _response.DetailTo) / 1e5) * 1e5 : null;

    private static string BandWords => "90 % of those built";

    private static IEnumerable<ToleranceBand> Thin(ToleranceBand[] all, int rows) => all.Length <= rows
        ? all
        : Enumerable.Range(0, rows).Select(i => all[(int)Math.Round((double)i * (all.Length - 1) / (rows - 1))]);

    private PlotOverlay Gain() => new()
    {
        Band = HasBand
            ? new PlotBand([.. Bands.Select(static b => new PlotSpan(b.FrequencyHz, b.S21Db.P5, b.S21Db.P95))], BandWords)
            : null,
        Demands =
        [
            .. _mask
                .Where(static m => m.LeastLossDb is not null)
                .Select(static m => new PlotDemand(m.FromHz, m.ToHz, -m.LeastLossDb!.Value, Below: true)),
            .. _mask
                .Where(static m => m.MostLossDb is not null)
                .Select(static m => new PlotDemand(m.FromHz, m.ToHz, -m.MostLossDb!.Value, Below: false)),
        ],
        Measured = _input.MeasuredGain,
        MeasuredWords = _input.MeasuredName is { } name ? $"measured, {name}" : "measured",
    };

    [GeneratedRegex(@"(\d) (W|V|A|dB|MHz|kHz|nH|pF|ohm|\u03A9|%|C)(?![A-Za-z])")]
    private static partial Regex NumberAndUnit();
}
