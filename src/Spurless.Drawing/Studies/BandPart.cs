using Spurless.Drawing.Plotting;
using Spurless.Radio.Quantities;

namespace Spurless.Drawing.Studies;

/// <summary>The middle of the study picture: carriers as sticks by level, the chain's response over them.</summary>
internal static class BandPart
{
    private const double Scale = 20;

    /// <summary>Level in dBm and response in dB on one scale, 0 dB at 0 dBm.</summary>
    public static Axis LevelAxis(StudyPictureFrame frame)
    {
        double highest = frame.Model.Carriers.Select(static c => c.Finding.LevelAtAntennaDbm ?? double.NegativeInfinity).Append(-10).Max();
        double top = Math.Max(0, Math.Ceiling((highest + 5) / Scale) * Scale);
        return Axis.Linear(-110, top, frame.Band.Bottom, frame.Band.Top);
    }

    /// <summary>Draws the band.</summary>
    public static void Draw(StudyPictureFrame frame)
    {
        PlotBox band = frame.Band;
        Axis level = LevelAxis(frame);
        IReadOnlyList<PlotPoint> curve = AdaptiveSampling.Of(
            frame.Model.ResponseDb,
            frame.Frequency,
            level,
            frame.Model.Carriers.Select(static c => (double)c.Finding.FrequencyHz).Append(frame.Model.Receiver.FrequencyHz));
        DrawVeil(frame, curve);
        DrawScales(frame, level);
        LabelPlacer placer = new(band.Grown(-1));
        BandLabels.Block(frame, level, placer, curve);
        DrawSticks(frame, level);
        foreach (IReadOnlyList<PlotPoint> part in Clipping.Polyline(Decimation.PerColumn(curve, 0.5), band))
        {
            frame.Path("curve", new SvgPath().Through(part).ToString());
        }

        NumberLinePart.DrawLeads(frame);
        BandLabels.DrawLetters(frame, level, placer, DrawHeads);
        BandLabels.DrawKeys(frame, placer, curve);
    }

    private static void DrawVeil(StudyPictureFrame frame, IReadOnlyList<PlotPoint> curve)
    {
        PlotBox band = frame.Band;
        SvgPath veil = new SvgPath().Move(band.Left, band.Top);
        foreach (PlotPoint p in Decimation.PerColumn(curve))
        {
            // A fill, not a line: what runs out of the frame fills to its edge. No gain known means kept in.
            veil.Line(p.X, double.IsFinite(p.Y) ? Math.Clamp(p.Y, band.Top, band.Bottom) : band.Top);
        }

        frame.Path("veil", veil.Line(band.Right, band.Top).Close().ToString());
    }

    private static void DrawScales(StudyPictureFrame frame, Axis level)
    {
        PlotBox band = frame.Band;
        foreach (Tick tick in level.TicksEvery(Scale, 15))
        {
            double y = level.Map(tick.Value);
            string text = (tick.Value < 0
                ? StudyPictureFrame.Signs.Minus
                : tick.Value > 0 ? "+"
                : "") + Math.Abs(tick.Value).ToString("0", System.Globalization.CultureInfo.InvariantCulture);
            if (y > band.Top + 1)
            {
                frame.Path("grid", SvgPath.Segment(band.Left, y, band.Right, y));
            }

            frame.Text("", band.Left - 6, y + 4, text, TextAnchor.End);
            if (frame.IsWide)
            {
                frame.Text("curve-text", band.Right + 6, y + 4, text);
            }
        }

        frame.Path("axis", SvgPath.Segment(band.Left, band.Top, band.Right, band.Top));
        frame.Path("axis", SvgPath.Segment(band.Left, band.Bottom, band.Right, band.Bottom));
        frame.Text("", 0, band.Top - 9, frame.IsWide ? "level, dBm" : "level, dBm, and response, dB");
        if (frame.IsWide)
        {
            frame.Text("curve-text", frame.Width, band.Top - 9, "response, dB", TextAnchor.End);
        }

        DrawFrequencies(frame);
    }

    private static void DrawFrequencies(StudyPictureFrame frame)
    {
        PlotBox band = frame.Band;
        LabelPlacer row = new(new PlotBox(0, band.Bottom, frame.Width, band.Bottom + 60));
        row.Block(new PlotBox(frame.ChannelX - 4, band.Bottom, frame.ChannelX + 4, band.Bottom + 20));
        foreach (Tick tick in frame.Frequency.Ticks().OrderByDescending(static t => t.Labelled))
        {
            double x = frame.Frequency.Map(tick.Value);
            SceneText? label = tick.Labelled
                ? row.Place(
                    new SceneText("halo", x, 0, MegahertzTick(tick.Value), TextAnchor.Middle),
                    [new LabelSpot(x, band.Bottom + 17, TextAnchor.Middle)])
                : null;
            frame.Path(label is null ? "tick" : "axis", SvgPath.Segment(x, band.Bottom, x, band.Bottom + (label is null ? 3 : 5)));
            if (label is not null)
            {
                frame.Add(label);
            }
        }

        // The title stands at the end away from the lines that lead to the magnified channel.
        bool right = frame.ChannelX < (band.Left + band.Right) / 2;
        frame.Text(
            "halo", right ? band.Right : band.Left, band.Bottom + 31, "frequency, MHz (log)", right ? TextAnchor.End : TextAnchor.Start);
    }

    // All sticks of one look are one path: hundreds of carriers are hundreds of elements less for the browser.
    private static void DrawSticks(StudyPictureFrame frame, Axis level)
    {
        PlotBox band = frame.Band;
        foreach (bool after in (bool[])[false, true])
        {
            foreach (bool picked in (bool[])[false, true])
            {
                SvgPath path = new();
                foreach (LetteredCarrier c in frame.Model.Carriers.Where(c => frame.IsPicked(c.Index) == picked))
                {
                    double? dbm = after ? c.Finding.LevelAtReceiverDbm : c.Finding.LevelAtAntennaDbm;
                    if (dbm is { } value && value > level.Minimum)
                    {
                        double x = frame.Frequency.Map(c.Finding.FrequencyHz);
                        path.Move(x, band.Bottom).Line(x, level.Map(value));
                    }
                }

                if (path.ToString() is { Length: > 0 } data)
                {
                    frame.Path((after ? "stem on" : "stem") + (picked ? " picked" : ""), data);
                }
            }
        }
    }

    private static void DrawHeads(StudyPictureFrame frame, Axis level)
    {
        PlotBox band = frame.Band;
        foreach (LetteredCarrier c in frame.Model.Carriers.OrderBy(c => frame.IsPicked(c.Index)))
        {
            double x = frame.Frequency.Map(c.Finding.FrequencyHz);
            string picked = frame.IsPicked(c.Index) ? " picked" : "";
            string target = Target(c);
            if (c.Finding.LevelAtAntennaDbm is null)
            {
                // A ring on the axis, without a stick: it is there, and how strong is not known.
                frame.Add(new SceneCircle("ball" + picked, x, band.Bottom, 3.2) { Target = target, Middle = (x, band.Bottom) });
            }

            if (c.Finding.LevelAtAntennaDbm is { } before && before > level.Minimum)
            {
                frame.Add(new SceneCircle("ball" + picked, x, level.Map(before), 3.2) { Target = target, Middle = (x, level.Map(before)) });
            }

            if (c.Finding.LevelAtReceiverDbm is { } after)
            {
                frame.Add(after > level.Minimum
                    ? new SceneCircle("ball on" + picked, x, level.Map(after), 2.8) { Target = target, Middle = (x, level.Map(after)) }
                    : new ScenePath("ball on" + picked, Triangle(x, band.Bottom - 1)) { Target = target });
            }
        }
    }

    /// <summary>What is picked with a carrier.</summary>
    public static string Target(LetteredCarrier carrier) => FormattableString.Invariant($"carrier {carrier.Index}");

    private static string Triangle(double x, double bottom) =>
        new SvgPath().Move(x, bottom).Line(x - 3.6, bottom - 5.6).Line(x + 3.6, bottom - 5.6).Close().ToString();

    private static string MegahertzTick(double hertz) =>
        MegahertzText.Of(hertz, 0, 6);
}
