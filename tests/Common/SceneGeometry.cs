using System.Globalization;
using Spurless.Drawing.Plotting;

namespace Spurless.Tests.Common;

/// <summary>Where the lines and marks of a drawing run, read off what is drawn and not off what laid it out.</summary>
internal static class SceneGeometry
{
    /// <summary>The stretches of a path of straight lines.</summary>
    public static IEnumerable<(PlotPoint From, PlotPoint To)> Stretches(ScenePath path)
    {
        PlotPoint? begin = null, last = null;
        foreach (string command in Split(path.Data))
        {
            double[] n =
            [
                .. command[1..].Split(' ', StringSplitOptions.RemoveEmptyEntries)
                    .Select(static t => double.Parse(t, CultureInfo.InvariantCulture)),
            ];
            PlotPoint? to = command[0] == 'Z' ? begin : new PlotPoint(n[^2], n[^1]);
            if (command[0] == 'M')
            {
                begin = to;
            }
            else if (last is { } from && to is { } end)
            {
                yield return (from, end);
            }

            last = to;
        }
    }

    /// <summary>Whether a path wears a look.</summary>
    public static bool Wears(SceneItem item, string look) => item.Class.Split(' ').Contains(look);

    /// <summary>Every text that a line of one of these looks runs through, or that lies on a mark.</summary>
    public static IEnumerable<string> Collisions(Scene scene, params string[] lines)
    {
        // The letters are a little smaller than their line: half a pixel of touching is none.
        (string Text, PlotBox Box)[] texts = [.. scene.Items.OfType<SceneText>().Select(static t => (t.Text, t.Box.Grown(-1)))];
        foreach (ScenePath path in scene.Items.OfType<ScenePath>().Where(p => Array.Exists(lines, l => Wears(p, l))))
        {
            foreach ((PlotPoint from, PlotPoint to) in Stretches(path))
            {
                foreach ((string text, PlotBox box) in texts.Where(t => t.Box.Meets(from, to)))
                {
                    yield return $"'{text}' at {box} lies on the line {path.Class} from {from} to {to}";
                }
            }
        }

        foreach (SceneItem item in scene.Items)
        {
            PlotBox? mark = item switch
            {
                SceneCircle { Target: not null } c => PlotBox.Around(c.X, c.Y, c.Radius, c.Radius),
                ScenePath { Target: not null, Middle: { } m } => PlotBox.Around(m.X, m.Y, 4, 4),
                _ => null,
            };
            if (mark is { } taken)
            {
                foreach ((string text, PlotBox box) in texts.Where(t => t.Box.Overlaps(taken)))
                {
                    yield return $"'{text}' at {box} lies on the mark {item.Target} at {taken}";
                }
            }
        }
    }

    private static IEnumerable<string> Split(string data)
    {
        int at = 0;
        for (int i = 1; i <= data.Length; i++)
        {
            if (i == data.Length || char.IsAsciiLetterUpper(data[i]))
            {
                yield return data[at..i];
                at = i;
            }
        }
    }
}
