using System.Globalization;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Responses;
using Spurless.Drawing.Studies;
using Spurless.Drawing.Words;
using Spurless.Radio.Quantities;
using Spurless.Sites.Responses;

namespace Spurless.Reports.Responses;

/// <summary>What the page of a response shows: ranges, plots, figures and rows, from the result and the network.</summary>
internal sealed class ResponseView
{
    private const int DetailPoints = 401;

    private readonly ResponseAnswer _input;
    private readonly ResponseResult? _detail;

    public ResponseView(ResponseAnswer input)
    {
        _input = input;
        Carriers = input.Receiver is { } r ? LetteredCarrier.Of(r) : [];
        ChannelHz = input.Receiver?.FrequencyHz;
        (WideFrom, WideTo, DetailFrom, DetailTo) = ResponseFrames.Of(
            input.Result, input.Network, [.. Carriers.Select(static c => (double)c.Finding.FrequencyHz)]);
        _detail = DetailTo > DetailFrom
            ? ResponseCalculator.Compute(input.Network, input.Result.Name, FrequencyGrid.Linear(DetailFrom, DetailTo, DetailPoints))
            : null;
    }

    public IReadOnlyList<LetteredCarrier> Carriers { get; }

    public double? ChannelHz { get; }

    public double WideFrom { get; }

    public double WideTo { get; }

    public double DetailFrom { get; }

    public double DetailTo { get; }

    public bool HasPlots => DetailTo > DetailFrom && WideTo > WideFrom;

    public bool IsTwoPort => _input.Result.Ports == 2;

    private Passband? Band => _input.Result.Passband;

    /// <summary>The answer in a sentence.</summary>
    public string Answer
    {
        get
        {
            if (!IsTwoPort)
            {
                return OnePort();
            }

            if (_input.Result.Points is [var only] && _input.Network is MeasuredTwoPort)
            {
                string loss = Figures.Db(-20 * Math.Log10(only.S.S21.Magnitude), Typography.Fine);
                string back = $"{Figures.Db(ReturnLossDb(only.FrequencyHz), Typography.Fine)}\u00A0dB.";
                return $"At {Mhz(only.FrequencyHz)}\u00A0MHz, the one frequency of the sweep, "
                    + (only.S.S21.Magnitude > 0 ? $"the loss is {loss}\u00A0dB and the return loss {back}"
                        : $"nothing passes and the return loss is {back}");
            }

            if (ChannelHz is { } channel && Covers(channel))
            {
                return $"Passes {Figures.MegahertzExact((long)channel)}\u00A0MHz with "
                    + $"{Figures.Db(-GainDb(channel), Typography.Fine)}\u00A0dB loss.";
            }

            return Band is { CentreHz: { } } b
                ? $"Passes {Mhz(b.Low3DbHz)} to {Mhz(b.High3DbHz)}\u00A0MHz, "
                    + $"with {Figures.Db(b.LossDb, Typography.Fine)}\u00A0dB loss at the best of it."
                : Band is { } p
                    ? $"Passes best at {Mhz(p.PeakHz)}\u00A0MHz, with "
                        + $"{Figures.Db(p.LossDb, Typography.Fine)}\u00A0dB loss."
                    : "Lets nothing through.";
        }
    }

    /// <summary>What the one port reflects, in a sentence.</summary>
    private string OnePort()
    {
        ResponsePoint best = _input.Result.Points.MaxBy(p => ReturnLossDb(p.FrequencyHz))!;
        string match = $"{Figures.Db(ReturnLossDb(best.FrequencyHz), Typography.Fine)}\u00A0dB";
        return _input.Result.Points is [_]
            ? $"A one-port, measured at {Mhz(best.FrequencyHz)}\u00A0MHz only: its return loss there is {match}."
            : $"A one-port, so only what it reflects is shown. Its return loss is {match} at best, at {Mhz(best.FrequencyHz)}\u00A0MHz.";
    }

    public ResponsePlotModel Magnitude => new()
    {
        Title = $"Gain of {_input.Result.Name} over a wide range",
        Quantity = GainDb,
        AxisTitle = "gain, dB",
        CurveName = "gain",
        FromHz = WideFrom,
        ToHz = WideTo,
        Logarithmic = true,
        Low = Floor(WideFrom, WideTo, 20, -120),
        High = Top(),
        Marks = [.. Carriers.Where(c => Covers(c.Finding.FrequencyHz)).Select(static c => new PlotMark(c.Finding.FrequencyHz, c.Letter))],
        ChannelHz = ChannelHz,
    };

    public ResponsePlotModel PassBand => Magnitude with
    {
        Title = $"Gain of {_input.Result.Name} round its pass-band",
        FromHz = DetailFrom,
        ToHz = DetailTo,
        Logarithmic = false,
        Low = Floor(DetailFrom, DetailTo, 5, -30),
    };

    public ResponsePlotModel ReturnLoss => PassBand with
    {
        Title = $"Return loss of {_input.Result.Name} round its pass-band",
        Quantity = ReturnLossDb,
        AxisTitle = "return loss, dB",
        CurveName = IsTwoPort ? "return loss of the input" : "return loss",
        Low = 0,
        High = ReturnLossScale(Samples(DetailFrom, DetailTo).Select(ReturnLossDb).Where(double.IsFinite).DefaultIfEmpty(10).Max()),
        Downwards = true,
        Marks = [],
    };

    public ResponsePlotModel? GroupDelay
    {
        get
        {
            double[] all = [.. (_detail?.Points ?? []).Select(static p => p.GroupDelayS * 1e9).OfType<double>().Where(double.IsFinite)];
            if (all.Length < 2)
            {
                return null;
            }

            double low = Math.Min(0, all.Min());
            double step = Axis.RoundStep(Math.Max(1e-3, (all.Max() - low) / 4));
            return PassBand with
            {
                Title = $"Group delay of {_input.Result.Name} round its pass-band",
                Quantity = DelayNs,
                AxisTitle = "group delay, ns",
                CurveName = "group delay",
                Low = Math.Floor(low / step) * step,
                High = Math.Max(step, Math.Ceiling(all.Max() / step) * step),
                Downwards = false,
                Marks = [],
            };
        }
    }

    public Scene Smith(double width) => SmithScene.Draw(
        f => At(f).S11, DetailFrom, DetailTo, _input.Result.References[0].Real, SmithMarks(), width, _input.Result.Name);

    /// <summary>Figures of the pass-band, each with its unit.</summary>
    public IReadOnlyList<(string What, string Value)> BandFigures
    {
        get
        {
            List<(string, string)> rows = [];
            void Add(string what, double? value, string unit, string format, double scale = 1)
            {
                if (value is { } v && double.IsFinite(v))
                {
                    string digits = Math.Abs(v * scale).ToString(format, CultureInfo.InvariantCulture);
                    bool below = v < 0 && digits.AsSpan().IndexOfAnyInRange('1', '9') >= 0; // what rounds to nothing has no sign
                    rows.Add((what, $"{(below ? "\u2212" : "")}{digits} {unit}".Trim()));
                }
            }

            if (Band is { } b && _input.Result.Points.Length > 1)
            {
                Add("least loss", b.LossDb, "dB", "0.00");
                Add("at", b.PeakHz, "MHz", "0.000", 1e-6);
                Add(b.Kind == PassbandKind.LowPass ? "low-pass, corner 3 dB down" : "high-pass, corner 3 dB down", b.CornerHz, "MHz",
                    "0.000", 1e-6);
                Add("centre, between the points 3 dB down", b.CentreHz, "MHz", "0.000", 1e-6);
                Add("lower point 3 dB down", b.Low3DbHz, "MHz", "0.000", 1e-6);
                Add("upper point 3 dB down", b.High3DbHz, "MHz", "0.000", 1e-6);
                Add("width 3 dB down", b.Width3DbHz, "MHz", "0.000", 1e-6);
                Add("width 6 dB down", b.Width6DbHz, "MHz", "0.000", 1e-6);
                Add("width 60 dB down", b.Width60DbHz, "MHz", "0.0", 1e-6);
                Add("shape factor, 60 dB to 3 dB", b.ShapeFactor60To3, "", "0.0");
                Add("ripple", b.RippleDb, "dB", "0.00");
                Add("return loss at the centre", b.ReturnLossDb, "dB", "0.0");
                Add("group delay at the centre", b.GroupDelayS, "ns", "0.0", 1e9);
                Add("group delay varies over the 3 dB width by", b.GroupDelayVariationS, "ns", "0.0", 1e9);
            }

            foreach (FurtherPassband further in _input.Result.FurtherPassbands)
            {
                rows.Add(
                    (
                        "also lets through",
                        $"{MegahertzText.InWords(further.PeakHz)} MHz, {Figures.Db(further.LossDb, Typography.Fine)} dB loss"));
            }

            foreach (FurtherPassband lobe in _input.Result.Lobes)
            {
                rows.Add((
                    "lobe of the skirt, no pass-band",
                    $"{MegahertzText.InWords(lobe.PeakHz)} MHz, {Figures.Db(lobe.LossDb, Typography.Fine)} dB loss"));
            }

            foreach (Notch notch in _input.Result.Notches)
            {
                rows.Add(
                    ("notch", $"{MegahertzText.InWords(notch.FrequencyHz)} MHz, {Figures.Db(notch.LossDb, Typography.Fine)} dB loss"));
            }

            return rows;
        }
    }

    /// <summary>The plots as a table: round frequencies of the pass-band and beyond.</summary>
    public IReadOnlyList<ResponsePoint> Rows
    {
        get
        {
            double[] wide =
            [
                .. new[] { WideFrom, WideTo },
                .. Enumerable.Range(1, 7).Select(i => WideFrom * Math.Pow(WideTo / WideFrom, i / 8.0)),
            ];
            double[] detail = [.. Enumerable.Range(0, 13).Select(i => DetailFrom + ((DetailTo - DetailFrom) * i / 12))];
            double[] all =
            [
                .. wide
                    .Concat(detail)
                    .Select(static f => Math.Round(f / 1e4) * 1e4)
                    .Concat((ChannelHz ?? _input.Result.NearHz) is { } c ? [c] : [])
                    .Where(Covers)
                    .Where(static f => f > 0)
                    .Distinct().Order(),
            ];
            return all.Length == 0 ? [] : [.. ResponseCalculator.Compute(_input.Network, _input.Result.Name, all).Points];
        }
    }

    public bool Covers(double hertz) => hertz > 0 && hertz >= _input.Network.LowestHz && hertz <= _input.Network.HighestHz;

    public double GainDb(double hertz) =>
        Covers(hertz) && IsTwoPort ? Math.Max(-400, 20 * Math.Log10(At(hertz).S21.Magnitude)) : double.NaN;

    public double ReturnLossDb(double hertz) => Covers(hertz) ? -20 * Math.Log10(Math.Max(1e-10, At(hertz).S11.Magnitude)) : double.NaN;

    /// <summary>A lossless resonance met exactly has no one solution: the limit beside it.</summary>
    private ScatteringMatrix At(double hertz)
    {
        try
        {
            return _input.Network.At(hertz);
        }
        catch (CircuitException)
        {
            return _input.Network.At(hertz * (1 + 1e-9));
        }
    }

    private double DelayNs(double hertz)
    {
        if (_detail is not { } d || hertz < DetailFrom || hertz > DetailTo)
        {
            return double.NaN;
        }

        double at = (hertz - DetailFrom) / (DetailTo - DetailFrom) * (DetailPoints - 1);
        int i = Math.Clamp((int)at, 0, DetailPoints - 2);
        return d.Points[i].GroupDelayS is { } a && d.Points[i + 1].GroupDelayS is { } b ? (a + ((at - i) * (b - a))) * 1e9 : double.NaN;
    }

    private List<SmithMark> SmithMarks()
    {
        List<SmithMark> marks = [];
        double? main = ChannelHz is { } c && c >= DetailFrom && c <= DetailTo ? c : Band?.CentreHz;
        if (main is { } hertz)
        {
            marks.Add(
                new SmithMark(
                    hertz,
                    $"{MegahertzText.InWords(hertz)} MHz, return loss {Figures.Db(ReturnLossDb(hertz), Typography.Fine)} dB",
                    true));
        }

        foreach (double? edge in (double?[])[DetailFrom, Band?.Low3DbHz, Band?.High3DbHz, DetailTo])
        {
            if (edge is { } f)
            {
                marks.Add(new SmithMark(f, MegahertzText.Of(f, 1), false));
            }
        }

        return marks;
    }

    /// <summary>The end of a scale of return loss: tens, and for what reflects nearly everything the next of 1, 2, 5.</summary>
    private static double ReturnLossScale(double greatest) => greatest switch
    {
        <= 1 => 1,
        <= 2 => 2,
        <= 5 => 5,
        _ => Math.Clamp(Math.Ceiling(greatest / 10) * 10, 10, 40),
    };

    private double Top() => Band is { LossDb: < 0 } b ? Math.Ceiling(-b.LossDb / 10) * 10 : 0;

    private double Floor(double from, double to, double step, double least)
    {
        double lowest = Samples(from, to).Select(GainDb).Where(double.IsFinite).DefaultIfEmpty(-20).Min();
        return Math.Clamp(Math.Floor(lowest / step) * step, least, -step * 2);
    }

    private static IEnumerable<double> Samples(double from, double to) =>
        Enumerable.Range(0, 201).Select(i => from * Math.Pow(to / from, i / 200.0));

    private static string Mhz(double? hertz) => MegahertzText.InWords(hertz ?? 0);
}
