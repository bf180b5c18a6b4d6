using Spurless.Drawing.Plotting;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Studies;

/// <summary>
/// Draws the study picture for a width: the selected mixture's arithmetic as hops on the picture's own frequency axis, the band with its
/// carriers and the chain's response, and the channel magnified. A picture is drawn for its width, never scaled.
/// </summary>
public static class StudyPictureScene
{
    /// <summary>Draws it.</summary>
    /// <param name="model">What to show.</param>
    /// <param name="width">In CSS pixels, at least 300; under 560 it is another drawing, with letters instead of names.</param>
    /// <param name="selected">Number of the mixture whose arithmetic is drawn; null for none.</param>
    /// <param name="keepsRoom">Whether the room for it is kept where none is selected, so that nothing moves when one is.</param>
    public static Scene Draw(StudyPictureModel model, double width, int? selected, bool keepsRoom = true)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 300);
        StudyPictureFrame frame = new(model, width, selected);
        double above = NumberLinePart.Draw(frame, keepsRoom);
        double bandTop = Math.Max(above + 22, 24);
        double bandHeight = frame.IsWide ? 108 : 176;
        double insetHeight = frame.IsWide ? 136 : 256;
        frame.Band = new PlotBox(frame.Left, bandTop, frame.Right, bandTop + bandHeight);
        frame.Inset = new PlotBox(frame.Left, frame.Band.Bottom + 56, frame.Right, frame.Band.Bottom + 56 + insetHeight);
        BandPart.Draw(frame);
        if (model.HasNoLevels)
        {
            new OrderPart(frame).Draw();
        }
        else
        {
            new InsetPart(frame).Draw();
        }

        return new Scene
        {
            Width = width,
            Height = frame.Inset.Bottom + 36,
            Title = $"Carriers at the {model.Receiver.Name}, the response of its chain, and the mixtures round its channel",
            Description = Describe(frame),
            Items = frame.Items,
            Selected = frame.Selected is { } s ? InsetPart.Target(s) : null,
            TargetNames = Names(model),
        };
    }

    private static string Describe(StudyPictureFrame frame)
    {
        ReceiverFindings r = frame.Model.Receiver;
        int drawn = Chosen(frame.Model).Count;
        string sum = frame.Selected is { } f
            ? $" Drawn in, finding {f.Number}: {StudyWords.Mixture(f.Either, Typography.Fine)} MHz, "
                + $"{StudyWords.Names(f.Either, Typography.Fine)}."
            : "";
        string states = frame.Model.HasFilter ? $"hollow {frame.Model.Words.Before}, solid {frame.Model.Words.After}" : "as they are";
        if (frame.Model.HasNoLevels)
        {
            return $"Above: {r.Carriers.Count} carriers as rings on a logarithmic frequency axis, without height, since no level is known. "
                + $"Below: the channel round {Figures.MegahertzExact(r.FrequencyHz)} MHz magnified, {drawn} mixtures that can land there, "
                + $"by order and offset; how strong they are is not known.{sum} The tables of findings and carriers hold every number.";
        }

        return $"Above: {r.Carriers.Count} carriers as sticks by level on a logarithmic frequency axis, "
            + $"hollow at the antenna, solid at the receiver, with the response of the chain. "
            + $"Below: the channel round {Figures.MegahertzExact(r.FrequencyHz)} MHz magnified, {drawn} mixtures by level, {states}, "
            + $"and the noise floor at {Figures.Db(r.NoiseFloorDbm, Typography.Fine)} dBm.{sum} The "
                + $"tables of findings and carriers hold every number.";
    }

    private static IReadOnlyList<NumberedFinding> Chosen(StudyPictureModel model) =>
        model.HasNoLevels ? OrderPart.Chosen(model) : InsetPart.Chosen(model);

    private static Dictionary<string, string> Names(StudyPictureModel model)
    {
        Dictionary<string, string> names = [];
        foreach (LetteredCarrier c in model.Carriers)
        {
            names[BandPart.Target(c)] = $"carrier {c.Letter}, {c.Finding.Emitter}, {Figures.MegahertzExact(c.Finding.FrequencyHz)} MHz";
        }

        foreach (NumberedFinding f in Chosen(model))
        {
            names[InsetPart.Target(f)] =
                $"finding {f.Number}, {StudyWords.Arithmetic(f.Either, Typography.Fine)}, {StudyWords.Word(f.Now)}";
        }

        return names;
    }
}
