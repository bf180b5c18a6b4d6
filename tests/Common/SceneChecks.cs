using Spurless.Drawing.Plotting;

namespace Spurless.Tests.Common;

/// <summary>What every drawing must keep to.</summary>
internal static class SceneChecks
{
    /// <summary>No text lies over another.</summary>
    public static void NoTextMeetsAnother(Scene scene)
    {
        SceneText[] texts = [.. scene.Items.OfType<SceneText>()];
        for (int i = 0; i < texts.Length; i++)
        {
            for (int j = i + 1; j < texts.Length; j++)
            {
                Assert.False(
                    texts[i].Box.Grown(-0.6).Overlaps(texts[j].Box.Grown(-0.6)),
                    $"'{texts[i].Text}' at {texts[i].Box} lies over '{texts[j].Text}' at {texts[j].Box}.");
            }
        }
    }

    /// <summary>No text leaves the drawing.</summary>
    public static void AllInside(Scene scene)
    {
        PlotBox all = new PlotBox(0, 0, scene.Width, scene.Height).Grown(1);
        Assert.All(scene.Items.OfType<SceneText>(), t => Assert.True(all.Contains(t.Box), $"'{t.Text}' at {t.Box} leaves the picture."));
    }
}
