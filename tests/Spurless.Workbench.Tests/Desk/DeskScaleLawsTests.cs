using System.Globalization;
using CsCheck;
using Spurless.Radio.Quantities;
using Spurless.Workbench.Desk;

namespace Spurless.Workbench.Tests.Desk;

/// <summary>
/// Sliders of any value that a file can hold: the value itself on the grid, the ends where they belong, prefixes by powers of ten.
/// </summary>
public sealed class DeskScaleLawsTests
{
    private static readonly DeskItem _empty = new() { Id = "x", Name = "x", Effect = "x", FileValue = 0 };

    private static readonly Gen<string> _texts = Gen.Select(Gen.Int[0, 3], Gen.Double[0, 4],
        Gen.Int[2, 6]).Select(static (kind, lg, figures) =>
    {
        string value = Math.Pow(10, lg).ToString("G" + figures, CultureInfo.InvariantCulture);
        return kind switch
        {
            0 => Capacitance.Parse(value + " pF").ToString(),
            1 => Inductance.Parse(value + " nH").ToString(),
            2 => Resistance.Parse(value + " ohm").ToString(),
            _ => Length.Parse(value + " mm").ToString(),
        };
    });

    [Fact]
    public void Proportional_holds_the_value_on_its_grid_between_half_and_twice() => _texts.Sample(static text =>
    {
        if (DeskScale.Proportional(_empty, text) is not { } item)
        {
            return;
        }

        Assert.Equal(text, item.Written(item.FileValue));
        Assert.Equal(item.FileValue, item.Snapped(item.FileValue));
        Assert.Equal(item.FileValue / 2, item.Low, item.Step);
        Assert.Equal(item.FileValue * 2, item.High, item.Step);
        Assert.Equal(Math.Pow(10, -item.Decimals), item.Step, 1e-15);

        // A step is a hundredth of the value, or less.
        Assert.True(item.Step <= item.FileValue / 99, $"{item.Step} of {text}");
        for (int i = 0; i <= 10; i++)
        {
            double on = item.Snapped(item.Low + ((item.High - item.Low) * i / 10));
            Assert.InRange(on, item.Low, item.High);
            Assert.Equal(on, item.Snapped(on));
            Assert.Equal(on, double.Parse(item.Number(on), CultureInfo.InvariantCulture), item.Step / 2);
        }
    }, iter: 500);

    [Fact]
    public void Decibels_holds_the_files_value_whatever_it_is() =>
        Gen.Select(Gen.Int[-2_000, 2_000], Gen.Int[0, 3], Gen.OneOf(0.1, 0.5, 1.0)).Sample(static (digits, decimals, step) =>
        {
            double value = Math.Round(digits / Math.Pow(10, decimals), decimals);
            DeskItem item = DeskScale.Decibels(_empty with { FileValue = value, Unit = "dB" }, -20, 30, step);
            Assert.InRange(value, item.Low, item.High);
            Assert.Equal(value, item.Snapped(value));
            Assert.True(item.Low <= -20 && item.High >= 30);
            Assert.True(item.Step <= step + 1e-12);
            Assert.Equal(Math.Round(value, item.Decimals), double.Parse(item.Number(value), CultureInfo.InvariantCulture), 1e-9);
        }, iter: 500);

    /// <summary>
    /// A number in another prefix of the same unit is so many powers of ten away; one of another unit is left as it stands.
    /// </summary>
    [Fact]
    public void Stripped_of_another_prefix_is_the_power_of_ten_between() =>
        Gen.Select(Gen.Int[1, 99_999], Gen.Int[0, 7], Gen.Int[0, 7], Gen.Int[0, 3]).Sample(static (digits, from, to, unit) =>
        {
            (string Prefix, int Power)[] prefixes = [("f", -15), ("p", -12), ("n", -9), ("u", -6), ("m", -3), ("", 0), ("k", 3), ("M", 6)];
            string[] units = ["F", "H", "ohm", "m"];
            string number = digits.ToString(CultureInfo.InvariantCulture);
            (string stripped, int shift) = DeskUnits.Stripped($"{number} {prefixes[from].Prefix}{units[unit]}",
                prefixes[to].Prefix + units[unit]);
            Assert.Equal((number, prefixes[from].Power - prefixes[to].Power), (stripped, shift));
            string other = units[(unit + 1) % 3];
            if (unit < 3)
            {
                Assert.Equal(($"{number} {other}", 0), DeskUnits.Stripped($"{number} {other}", prefixes[to].Prefix + units[unit]));
            }
        }, iter: 500);
}
