using System.Globalization;
using System.Text.RegularExpressions;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Responses;
using Spurless.Drawing.Schematics;
using Spurless.Drawing.Studies;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Drawing.Tests.Plotting;

/// <summary>
/// The style sheet of the drawings: both themes and paper name the same colours, rules take colours from there alone, everything drawn has
/// a look, and what must be told apart has the contrast of WCAG 2.2 (1.4.3: text 4.5 to 1; 1.4.11: lines and marks 3 to 1).
/// </summary>
public sealed partial class DrawingStylesTests
{
    private static readonly string[] _blocks = [.. Root().Matches(DrawingStyles.Css).Select(static m => m.Groups[1].Value)];

    private static Dictionary<string, string> Colours(string block) =>
        Colour().Matches(block).ToDictionary(static m => m.Groups[1].Value, static m => m.Groups[2].Value);

    public static TheoryData<string> Themes => [.. _blocks];

    [Fact]
    public void Themes_and_paper_name_the_same_colours()
    {
        Assert.Equal(3, _blocks.Length); // light, dark, paper
        Assert.All(_blocks, static b => Assert.Equal(Colours(_blocks[0]).Keys.Order(), Colours(b).Keys.Order()));
    }

    [Fact]
    public void Rules_of_pictures_take_every_colour_from_the_theme_and_nothing_from_outside()
    {
        string rules = DrawingStyles.Css[DrawingStyles.Css.IndexOf("svg.pic", StringComparison.Ordinal)..];
        Assert.DoesNotMatch("#[0-9a-fA-F]{3,8}|rgba?\\(|hsla?\\(|url\\(|@import", rules);
        HashSet<string> known = [.. Colours(_blocks[0]).Keys, "sentence", "figure"];
        Assert.All(Variable().Matches(rules).Select(static m => m.Groups[1].Value), v => Assert.Contains(v, known));
        Assert.Equal(rules.Count(static c => c == '{'), rules.Count(static c => c == '}'));
    }

    [Theory]
    [MemberData(nameof(Themes))]
    public void Words_and_marks_stand_out_from_what_they_stand_on(string theme)
    {
        Dictionary<string, string> colours = Colours(theme);
        foreach (string ground in (string[])["paper", "veil"])
        {
            foreach (string words in (string[])["ink", "graphite", "pencil", "curve", "harm", "marg", "quiet"])
            {
                double contrast = Contrast(colours[words], colours[ground]);
                Assert.True(contrast >= 4.5, $"{words} on {ground}: {contrast:0.00} to 1");
            }
        }

        Assert.True(Contrast(colours["edge"], colours["paper"]) >= 3);
    }

    /// <summary>The published pairs of the formula: black on white is 21 to 1, and #767676 on white the last grey over 4.5.</summary>
    [Theory]
    [InlineData("#000", "#fff", 21)]
    [InlineData("#767676", "#ffffff", 4.54)]
    [InlineData("#777777", "#ffffff", 4.48)]
    public void Contrast_is_the_formula_of_the_recommendation(string one, string other, double ratio) =>
        Assert.Equal(ratio, Contrast(one, other), 0.005);

    [Fact]
    public void Everything_drawn_has_a_look()
    {
        HashSet<string> looks = [.. Look().Matches(DrawingStyles.Css).Select(static m => m.Groups[1].Value)];
        Scene[] scenes =
        [
            .. Topologies.Names.Select(static n => SchematicScene.Draw(Topologies.Of(n))).OfType<Scene>(),
            SmithScene.Draw(
                static _ => 0.3, 1e6, 2e6, 50, [new(1.5e6, "a", true), new(1.2e6, "b", false)], 400, "x", [0.5], static _ => 0.1),
            Study(DemoStudy.WithFilter()), Study(DemoStudy.WithoutFilter()),
        ];
        foreach (Scene scene in scenes)
        {
            foreach (string look in scene.Items.SelectMany(static i =>
                i.Class.Split(' ', StringSplitOptions.RemoveEmptyEntries)).Distinct())
            {
                Assert.True(looks.Contains(look), $"'{look}' in {scene.Title} has no rule");
            }
        }
    }

    private static Scene Study(StudyResult study)
    {
        ReceiverFindings receiver = study.Receivers[0];
        return StudyPictureScene.Draw(
            new StudyPictureModel
            {
                Receiver = receiver,
                Findings = NumberedFinding.Of(receiver),
                Carriers = LetteredCarrier.Of(receiver),
                ResponseDb = DemoStudy.Response(receiver),
                Options = new StudyOptions(),
            },
            812,
            null);
    }

    // WCAG 2.2, 'relative luminance' and 'contrast ratio'.
    private static double Contrast(string one, string other)
    {
        double a = Luminance(one), b = Luminance(other);
        return (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);
    }

    private static double Luminance(string colour)
    {
        string hex = colour.Length == 4 ? string.Concat(colour[1..].SelectMany(static c => new string(c, 2))) : colour[1..];
        double[] linear =
        [
            .. Enumerable.Range(0, 3).Select(i => int.Parse(hex.AsSpan(2 * i, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture)
                / 255.0).Select(static c => c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4)),
        ];
        return (0.2126 * linear[0]) + (0.7152 * linear[1]) + (0.0722 * linear[2]);
    }

    [GeneratedRegex(@":root \{([^}]*)\}")]
    private static partial Regex Root();

    [GeneratedRegex("--([a-z-]+): (#[0-9a-fA-F]{3,6});")]
    private static partial Regex Colour();

    [GeneratedRegex(@"var\(--([a-z-]+)\)")]
    private static partial Regex Variable();

    [GeneratedRegex(@"\.([a-z][a-z0-9-]*)")]
    private static partial Regex Look();
}
