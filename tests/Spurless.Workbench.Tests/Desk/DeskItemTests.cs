using CsCheck;
using Spurless.Workbench.Bench;
using Spurless.Workbench.Desk;

namespace Spurless.Workbench.Tests.Desk;

/// <summary>Values at the desk: what is shown can be typed back, what is written reads back, an address brings the same settings.</summary>
public sealed class DeskItemTests
{
    private static readonly CircuitBench _bench = CircuitBench.Open(
        """
        spurless_circuit: 1
        name: all units
        ports: { in: a, out: b, impedance: 50 ohm }
        parts:
          C1: { capacitor: 6.8 pF, between: [a, gnd] }
          C2: { capacitor: 1.25 nF, between: [a, gnd] }
          L1: { inductor: 27.6 nH, between: [a, b] }
          L2: { inductor: 1.5 uH, between: [a, b] }
          R1: { resistor: 47 ohm, between: [b, gnd] }
          R2: { resistor: 2.2 kohm, between: [b, gnd] }
          W1: { line: { impedance: 50 ohm, length: 345.5 mm, velocity: 0.66 }, between: [a, b] }
        """,
        "x.circuit.yaml",
        new Sites.Tests.Documents.StubFiles(),
        out _)!;

    public static TheoryData<string> Names => [.. _bench.Items.Select(static i => i.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void Scale_holds_the_files_value_on_its_grid_and_between_half_and_twice(string name)
    {
        DeskItem item = Item(name);
        Assert.Equal(item.FileValue, item.Snapped(item.FileValue));
        Assert.InRange(item.Low, item.FileValue * 0.49, item.FileValue * 0.51);
        Assert.InRange(item.High, item.FileValue * 1.99, item.FileValue * 2.01);
        Assert.Equal(Math.Pow(10, -item.Decimals), item.Step, 1e-15);
        // A hundred steps at least from end to end, so that a slider is of use.
        Assert.InRange((item.High - item.Low) / item.Step, 100, 1e6);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void TryRead_of_what_is_shown_is_the_value_shown(string name)
    {
        DeskItem item = Item(name);
        Gen.Double[item.Low, item.High].Sample(value =>
        {
            double snapped = item.Snapped(value);
            string shown = item.Text(snapped);
            foreach (string typed in (string[])[shown, item.Number(snapped), $" {shown} ", item.Written(snapped)])
            {
                Assert.True(item.TryRead(typed, out double read, out string problem), problem);
                Assert.Equal(snapped, read, item.Step / 2);
            }
        });
    }

    [Theory]
    [InlineData("C1", "0.0068 nF", 6.8)]
    [InlineData("C1", "6800 fF", 6.8)]
    [InlineData("C2", "1250 pF", 1.25)]
    [InlineData("L1", "0.0276 uH", 27.6)]
    [InlineData("L1", "0.0276 \u00B5H", 27.6)]
    [InlineData("L2", "1500nH", 1.5)]
    [InlineData("R2", "2200 ohm", 2.2)]
    [InlineData("R1", "0.047 kohm", 47)]
    [InlineData("W1", "0.3455 m", 345.5)]
    public void TryRead_of_the_same_quantity_in_another_unit_is_the_same_value(string name, string typed, double value)
    {
        DeskItem item = Item(name);
        Assert.True(item.TryRead(typed, out double read, out string problem), problem);
        Assert.Equal(value, read, value * 1e-9);
    }

    [Theory]
    [InlineData("C1", "-1 pF")]
    [InlineData("C1", "0")]
    [InlineData("C1", "6.8 nH")]
    [InlineData("C1", "NaN")]
    [InlineData("C1", "1e999")]
    [InlineData("C1", "")]
    [InlineData("R1", "6,8")]
    [InlineData("L1", "1e300 H")]
    public void TryRead_of_what_cannot_be_says_what_to_write(string name, string typed)
    {
        Assert.False(Item(name).TryRead(typed, out _, out string problem));
        Assert.Contains("; write ", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Number_never_shows_a_negative_zero()
    {
        DeskItem item = Item("C1") with { FileValue = 0.4, Low = -5, High = 5, Decimals = 1, Step = 0.1, Unit = "dB" };
        foreach (double value in (double[])[-0.04, -0.0, 0.0, 0.04])
        {
            Assert.Equal("0.0 dB", item.Text(item.Snapped(value)));
            Assert.Equal("0.0", item.Number(value));
        }
    }

    [Fact]
    public void Settings_of_any_values_read_back_from_their_text() =>
        Gen.Select(Gen.String[1, 12], Gen.Double).Array[0, 6].Sample(static values =>
        {
            DeskItem any = _bench.Items[0];
            DeskSettings settings = DeskSettings.None;
            foreach ((string id, double value) in values.Where(static v => double.IsFinite(v.Item2) && !v.Item1.Any(char.IsSurrogate)))
            {
                settings = settings.With(any with { Id = id, FileValue = double.NaN }, value);
            }

            string text = settings.ToString();
            Assert.Equal(settings, DeskSettings.Parse(text));
            Assert.Equal(text, DeskSettings.Parse(text).ToString());
            Assert.Equal(settings.GetHashCode(), DeskSettings.Parse(text).GetHashCode());
        });

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData(";;;")]
    [InlineData("=1")]
    [InlineData("a=")]
    [InlineData("a=x")]
    [InlineData("a=NaN;b=1e999;c=-Infinity")]
    public void Settings_of_a_broken_address_are_none(string? text) => Assert.True(DeskSettings.Parse(text).IsEmpty);

    [Fact]
    public void Settings_back_at_the_files_value_are_none()
    {
        DeskItem item = Item("L1");
        Assert.True(DeskSettings.None.With(item, 30).With(item, item.FileValue).IsEmpty);
        Assert.Equal(item.FileValue, DeskSettings.None.Of(item));
        Assert.Equal(30, DeskSettings.None.With(item, 30).Of(item));
        Assert.True(DeskSettings.Parse("gone=3").Known(_bench.Items).IsEmpty);
    }

    // The silliest that the format takes: nothing of it may end in an exception; what no slider holds has none.
    [Theory]
    [InlineData("0.000000001 fF", false)]
    [InlineData("1e-30 F", false)]
    [InlineData("1e30 F", true)]
    [InlineData("123456789.123456789 pF", true)]
    [InlineData("2.5 fF", true)]
    public void Open_of_any_value_has_a_slider_that_holds_it_or_none(string value, bool has)
    {
        CircuitBench? bench = CircuitBench.Open(
            "spurless_circuit: 1\nname: x\nports: { in: a, out: b, impedance: 50 ohm }\nparts:\n"
                + $"  C1: {{ capacitor: {value}, between: [a, b] }}\n",
            "x.circuit.yaml",
            new Sites.Tests.Documents.StubFiles(),
            out var findings);
        if (bench is null)
        {
            Assert.NotEmpty(findings);
            return;
        }

        Assert.Equal(has, bench.Items.Count == 1);
        if (!has)
        {
            return;
        }

        DeskItem item = bench.Items[0];
        Assert.InRange(item.FileValue, item.Low, item.High);
        Assert.True(item.TryRead(item.Written(item.FileValue), out double read, out string problem), problem);
        Assert.Equal(item.FileValue, read, item.FileValue * 1e-6);
    }

    private static DeskItem Item(string name) => _bench.Items.Single(i => i.Name == name);
}
