using Spurless.Drawing.Plotting;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Studies;

/// <summary>Where the three parts of a study picture stand at one width, their axes, and what has been drawn so far.</summary>
internal sealed class StudyPictureFrame
{
    public StudyPictureFrame(StudyPictureModel model, double width, int? selected)
    {
        Model = model;
        Width = width;
        IsWide = width >= 560;
        Selected = model.Findings.FirstOrDefault(f => f.Number == selected);
        Left = IsWide ? 40 : 34;
        Right = IsWide ? width - 40 : width - 8;
        Frequency = FrequencyAxis();
        ChannelX = Frequency.Map(model.Receiver.FrequencyHz);
    }

    public StudyPictureModel Model { get; }

    public double Width { get; }

    /// <summary>A narrow picture is another drawing: letters for names, no right-hand scale.</summary>
    public bool IsWide { get; }

    public NumberedFinding? Selected { get; }

    public double Left { get; }

    public double Right { get; }

    /// <summary>Frequency in hertz, logarithmic.</summary>
    public Axis Frequency { get; }

    public double ChannelX { get; }

    /// <summary>Number line's y, once laid out.</summary>
    public double LineY { get; set; }

    /// <summary>The band's frame, once laid out.</summary>
    public PlotBox Band { get; set; }

    /// <summary>The magnified channel's frame, once laid out.</summary>
    public PlotBox Inset { get; set; }

    public List<SceneItem> Items { get; } = [];

    public static Typography Signs => Typography.Fine;

    /// <summary>The term of the selected mixture that this carrier is, or null.</summary>
    public Term? SelectedTerm(int carrier) => Selected?.Either.Terms.FirstOrDefault(t => t.Emitter == carrier);

    /// <summary>Whether a carrier is drawn as picked: by itself, or as a part of the selected mixture.</summary>
    public bool IsPicked(int carrier) => carrier == Model.PickedCarrier || SelectedTerm(carrier) is not null;

    public void Add(SceneItem item) => Items.Add(item);

    public void Path(string style, string data, string? target = null) => Items.Add(new ScenePath(style, data) { Target = target });

    public void Text(
        string style, double x, double y, string text, TextAnchor anchor = TextAnchor.Start, double size = 11, bool bold = false) =>
        Items.Add(new SceneText(style, x, y, text, anchor, size, bold));

    /// <summary>A label where it came to stand, with its leader under it.</summary>
    public void Label(LabelWay way, string style)
    {
        if (way.Leader is { } leader)
        {
            Path("leader", SvgPath.Segment(leader.From.X, leader.From.Y, leader.To.X, leader.To.Y));
        }

        Add(way.Text with { Class = style });
    }

    private Axis FrequencyAxis()
    {
        double low = Model.Receiver.FrequencyHz;
        double high = low;
        foreach (LetteredCarrier c in Model.Carriers)
        {
            low = Math.Min(low, c.Finding.FrequencyHz);
            high = Math.Max(high, c.Finding.FrequencyHz);
        }

        low = Math.Max(1, low);
        // A margin of a twelfth of the span, an octave's tenth at least, so that heads and their words keep off the edge.
        double margin = Math.Max(Math.Pow(high / low, 1 / 16.0), 1.05);
        return Axis.Logarithmic(low / margin, high * margin, Left, Right);
    }
}
