using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;
using Spurless.Sites.Tests.Documents;
using Spurless.Workbench.Relays;

namespace Spurless.Workbench.Tests.Relays;

public sealed class RelaySliderTests
{
    private static LoadedBypass Bypass()
    {
        DiagnosticBag bag = new();
        LoadedBypass? read = SourceReader.Bypass(
            SourceFile.OfText("a.bypass.yaml", Sites.Documents.Bypasses.BypassTemplate.Text, new StubFiles()), bag);
        Assert.True(read is not null, string.Join('\n', bag.InOrder()));
        return read;
    }

    public static TheoryData<string> Keys => [.. RelaySlider.All.Select(static s => s.Key)];

    private static RelaySlider Of(string key) => RelaySlider.All.Single(s => s.Key == key);

    // The template's figures: 2.2 pF, 10 nF, 100 kohm, 12 V.
    [Theory]
    [InlineData("tap", 2.2e-12, "2.2 pF")]
    [InlineData("smoothing", 10e-9, "10 nF")]
    [InlineData("bleed", 100e3, "100 kohm")]
    [InlineData("supply", 12, "12 V")]
    public void Of_and_text_are_the_file(string key, double value, string text)
    {
        Assert.Equal(value, Of(key).Of(Bypass()));
        Assert.Equal(text, Of(key).Text(value));
    }

    [Theory]
    [MemberData(nameof(Keys))]
    public void At_every_position_reads_back_and_stands_there(string key)
    {
        RelaySlider slider = Of(key);
        LoadedBypass bypass = Bypass();
        double file = slider.Of(bypass), before = 0;
        Assert.Equal(file, slider.At(file, RelaySlider.Positions / 2));
        for (int position = 0; position <= RelaySlider.Positions; position++)
        {
            double value = slider.At(file, position);
            Assert.True(value >= before, $"{value} after {before}");
            before = value;
            Assert.True(slider.TryRead(slider.Text(value), out double read, out string problem), problem);
            Assert.Equal(value, read, 1e-9 * value);
            Assert.Equal(value, slider.Of(slider.With(bypass, value)));

            // Two digits: at most five in a hundred from where it stood.
            double there = Math.Log(value / (file * Math.Pow(slider.Reach, (2.0 * position / RelaySlider.Positions) - 1)));
            Assert.InRange(Math.Abs(there), 0, 0.051);
        }
    }

    [Theory]
    [InlineData("tap", "2.2", "2.2 pF")]
    [InlineData("bleed", "0 ohm", "100 kohm")]
    [InlineData("supply", "-3 V", "12 V")]
    [InlineData("smoothing", "much", "4.7 pF")]
    public void TryRead_what_cannot_be_says_what_to_write(string key, string text, string instead)
    {
        Assert.False(Of(key).TryRead(text, out _, out string problem));
        Assert.Contains("; write ", problem, StringComparison.Ordinal);
        Assert.Contains(instead, problem, StringComparison.Ordinal);
    }
}
