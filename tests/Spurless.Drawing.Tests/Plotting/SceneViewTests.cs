using System.Globalization;
using System.Xml.Linq;
using Bunit;
using CsCheck;
using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Tests.Plotting;

/// <summary>A scene as SVG: well formed, every item once, names escaped, and what can be picked can be reached by keys.</summary>
public sealed class SceneViewTests
{
    private static readonly Gen<double> _at = Gen.OneOf<double>(Gen.Double[-40, 400], Gen.OneOf(0.0, -0.0, -0.01, 0.049, -0.05));

    private static readonly Gen<string> _words = Gen.OneOf<string>(
        Gen.String[Gen.Char[' ', '~'], 1, 12],
        Gen.OneOf("<script>alert(1)</script>", "\"quoted\" & <b>", "]]>", "a'b", "Zwölf Türme", "&amp;"));

    private static readonly Gen<SceneItem> _item = Gen.OneOf<SceneItem>(
        Gen.Select(_at, _at, Gen.OneOf("", "ink", "say halo"), _words, Gen.Enum<TextAnchor>(), Gen.Bool,
            static (x, y, look, words, anchor, bold) => (SceneItem)new SceneText(look, x, y, words, anchor, 11, bold)),
        Gen.Select(_at, _at, Gen.Double[0.1, 9], static (x, y, r) => (SceneItem)new SceneCircle("ball", x, y, r)),
        Gen.Select(_at, _at, Gen.Bool, static (x, y, hatched) =>
            (SceneItem)new SceneRect("veil", new PlotBox(x, y, x + 7, y + 3), hatched)),
        Gen.Select(_at, _at, _at, _at, static (a, b, c, d) => (SceneItem)new ScenePath("wire", SvgPath.Segment(a, b, c, d))));

    private static readonly Gen<Scene> _scene =
        from items in _item.Array[0, 14]
        from targets in Gen.OneOf<string>(Gen.Const(""), Gen.OneOf("part A", "part \"B\"", "part C's")).Array[items.Length]
        from title in _words
        from description in _words
        select new Scene
        {
            Width = 400,
            Height = 300,
            Title = title,
            Description = description,
            Items = [.. items.Select((item, i) => targets[i].Length == 0 ? item : item with { Target = targets[i], Middle = (20, 30) })],
            TargetNames = new Dictionary<string, string> { ["part A"] = "the part & its name" },
        };

    [Fact]
    public void Markup_of_any_scene_is_one_well_formed_picture_with_its_name_and_description() => _scene.Sample(
        static scene =>
        {
            XElement svg = Render(scene, pick: false);
            Assert.Equal("0 0 400 300", svg.Attribute("viewBox")!.Value);
            Assert.Equal("img", svg.Attribute("role")!.Value);
            string[] named = svg.Attribute("aria-labelledby")!.Value.Split(' ');
            Assert.Equal(scene.Title, ById(svg, named[0]).Value);
            Assert.Equal(scene.Description, ById(svg, named[1]).Value);
            Assert.Empty(svg.Descendants("script"));

            // Every item once, in drawing order, and every word as it was.
            XElement[] drawn = [.. svg.Elements().Where(static e => e.Name.LocalName is "text" or "path" or "circle" or "rect")];
            Assert.Equal(scene.Items.Select(Name), drawn.Select(static e => e.Name.LocalName));
            Assert.Equal(
                scene.Items.OfType<SceneText>().Select(static t => t.Text),
                drawn.Where(static e => e.Name.LocalName == "text").Select(static e => e.Value));
            Figures(svg);
        },
        iter: 60);

    [Fact]
    public void Markup_of_what_can_be_picked_has_a_button_with_a_name_for_each_mark() => _scene.Sample(
        static scene =>
        {
            XElement svg = Render(scene, pick: true);
            Assert.Equal("group", svg.Attribute("role")!.Value);
            XElement[] buttons = [.. svg.Descendants("g").Where(static g => g.Attribute("role")?.Value == "button")];
            Assert.Equal(Buttons(scene), buttons.Length);
            Assert.All(buttons, static b =>
            {
                Assert.Equal(b.Attribute("data-target")!.Value == "part A" ? "the part & its name" : b.Attribute("data-target")!.Value,
                    b.Attribute("aria-label")!.Value);
                Assert.Equal("0", b.Attribute("tabindex")!.Value);
                Assert.Equal("false", b.Attribute("aria-pressed")!.Value);
            });

            // Nothing is lost on the way into groups.
            Assert.Equal(
                scene.Items.OfType<SceneText>().Select(static t => t.Text), svg.Descendants("text").Select(static e => e.Value));
            Figures(svg);
        },
        iter: 60);

    // Marks of one target behind each other are one button, where the first says how far it reaches or where its middle is.
    private static int Buttons(Scene scene)
    {
        int count = 0;
        string? open = null;
        foreach (SceneItem item in scene.Items)
        {
            if (item is SceneText || item.Target is null)
            {
                open = null;
                continue;
            }

            if (item.Target != open)
            {
                count++;
                open = item.Reach is null && item.Middle is null ? null : item.Target;
            }
        }

        return count;
    }

    [Fact]
    public void One_stop_takes_the_keys_in_at_the_selected_mark_and_nowhere_else()
    {
        Scene scene = new()
        {
            Width = 100,
            Height = 50,
            Title = "t",
            Description = "d",
            Items = [.. ((string[])["a", "b", "c"]).Select(static (n, i) => new SceneCircle("ball", 10 * i, 10, 3) { Target = n })],
            Selected = "b",
        };
        string[] Stops(Scene of) =>
        [
            .. Render(of, pick: true, oneStop: true).Descendants("g").Where(static g => g.Attribute("tabindex")?.Value == "0")
                .Select(static g => g.Attribute("data-target")!.Value),
        ];
        Assert.Equal(["b"], Stops(scene));
        Assert.Equal(["a"], Stops(scene with { Selected = null }));
        Assert.Equal(["a"], Stops(scene with { Selected = "gone" }));
        XElement pressed = Render(scene, pick: true, oneStop: true).Descendants("g")
            .Single(static g => g.Attribute("aria-pressed")?.Value == "true");
        Assert.Equal("b", pressed.Attribute("data-target")!.Value);
    }

    [Fact]
    public void A_click_and_the_keys_pick_the_target()
    {
        Scene scene = new()
        {
            Width = 100,
            Height = 50,
            Title = "t",
            Description = "d",
            Items = [new SceneCircle("ball", 1, 1, 3) { Target = "a" }, new SceneText("", 9, 9, "a's words") { Target = "a" }],
        };
        List<string> picked = [];
        using BunitContext context = new();
        IRenderedComponent<SceneView> view = context.Render<SceneView>(p => p
            .Add(static v => v.Scene, scene).Add(static v => v.Id, "x").Add(static v => v.OnPick, picked.Add));
        view.Find("g.pick").Click();
        view.Find("g.says").Click();
        view.Find("g[role=button]").KeyDown("Enter");
        view.Find("g[role=button]").KeyDown(" ");
        view.Find("g[role=button]").KeyDown("x");
        Assert.Equal(["a", "a", "a", "a"], picked);
    }

    private static string Name(SceneItem item) => item switch
    {
        SceneText => "text",
        SceneCircle => "circle",
        SceneRect => "rect",
        _ => "path",
    };

    private static XElement ById(XElement svg, string id) => svg.Descendants().Single(e => e.Attribute("id")?.Value == id);

    // Every coordinate is a plain figure with a decimal at most.
    private static void Figures(XElement svg)
    {
        foreach (XAttribute figure in svg.Descendants().Attributes().Where(static a =>
            a.Name.LocalName is "x" or "y" or "cx" or "cy" or "r" or "width" or "height"))
        {
            Assert.Matches(@"^-?\d+(\.\d)?$", figure.Value);
            Assert.NotEqual("-0", figure.Value);
            Assert.True(double.IsFinite(double.Parse(figure.Value, CultureInfo.InvariantCulture)));
        }
    }

    private static XElement Render(Scene scene, bool pick, bool oneStop = false)
    {
        using BunitContext context = new();
        IRenderedComponent<SceneView> view = context.Render<SceneView>(p =>
        {
            p.Add(static v => v.Scene, scene).Add(static v => v.Id, "x").Add(static v => v.OneStop, oneStop);
            if (pick)
            {
                p.Add(static v => v.OnPick, static _ => { });
            }
        });
        return XElement.Parse(view.Markup.Replace("blazor:", "blazor-", StringComparison.Ordinal), LoadOptions.PreserveWhitespace);
    }
}
