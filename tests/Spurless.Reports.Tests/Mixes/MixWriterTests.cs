using System.Globalization;
using System.Text.Json;
using CsCheck;
using Spurless.Mixing.Search;
using Spurless.Reports.Mixes;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Text;
using Spurless.Sites.Mixes;

namespace Spurless.Reports.Tests.Mixes;

/// <summary>Sums and differences of frequencies: what is printed adds up exactly.</summary>
public sealed class MixWriterTests
{
    private static readonly Gen<MixAnswer> _answer =
        from carriers in Gen.Long[1, 1_000_000_000].Array[1, 5]
        from at in Gen.Long[1, 1_000_000_000]
        from within in Gen.OneOf(Gen.Long[1, 100_000], Gen.Long[1, 400_000_000])
        from high in Gen.Int[2, 4]
        from signals in Gen.Int[1, 4]
        select MixService.Ask(new MixQuestion
        {
            FrequencyHz = at,
            WithinHz = within,
            CarriersHz = carriers,
            Orders = (2, high),
            Signals = signals,
        }, null, CancellationToken.None).Answer!;

    [Fact]
    public void Arithmetic_of_any_mixture_adds_up_to_the_hertz() => _answer.Sample(static answer =>
    {
        foreach (CarrierMixture mixture in answer.Mixtures)
        {
            PrintedArithmetic.AddsUp(MixWriter.Arithmetic(mixture));
        }
    });

    [Fact]
    public void WriteText_of_any_answer_agrees_in_number_and_begins_with_the_count() => _answer.Sample(static answer =>
    {
        using StringWriter text = new();
        MixWriter.WriteText(answer, text, TextInk.None);
        WrittenText.Sound(text.ToString());
        string count = answer.Mixtures.Count switch
        {
            0 => "no mixtures land",
            1 => "1 mixture lands",
            var n => Grouped(n) + " mixtures land",
        };
        Assert.Contains(count, text.ToString().Split("within")[0], StringComparison.Ordinal);
    });

    [Fact]
    public void WriteJson_and_WriteCsv_list_the_same_in_the_same_order() => _answer.Sample(static answer =>
    {
        using MemoryStream stream = new();
        MixWriter.WriteJson(answer, stream);
        using StringWriter csv = new();
        MixWriter.WriteCsv(answer, csv);
        List<List<string>> rows = WrittenText.Csv(csv.ToString());
        JsonElement[] products = [.. JsonDocument.Parse(stream.ToArray()).RootElement.GetProperty("products").EnumerateArray()];
        Assert.Equal(products.Length, rows.Count - 1);
        (int Order, long Away) last = (0, 0);
        foreach ((JsonElement json, List<string> row) in products.Zip(rows.Skip(1)))
        {
            Assert.Equal(json.GetProperty("order").GetRawText(), row[0]);
            Assert.Equal(json.GetProperty("frequency_hz").GetRawText(), row[1]);
            Assert.Equal(json.GetProperty("offset_hz").GetRawText(), row[2]);
            long sum = json.GetProperty("terms").EnumerateArray().Sum(static t =>
                t.GetProperty("coefficient").GetInt32() * t.GetProperty("frequency_hz").GetInt64());
            Assert.Equal(json.GetProperty("frequency_hz").GetInt64(), sum);
            Assert.Equal(sum - answer.Question.FrequencyHz, json.GetProperty("offset_hz").GetInt64());
            // By order, then by distance.
            (int, long) now = (json.GetProperty("order").GetInt32(), Math.Abs(json.GetProperty("offset_hz").GetInt64()));
            Assert.True(now.CompareTo(last) >= 0);
            last = now;
        }
    });

    [Fact]
    public void WriteText_says_that_a_frequency_stands_there_twice_once()
    {
        using StringWriter text = new();
        MixWriter.WriteText(
            MixService.Ask(
                new MixQuestion
                {
                    FrequencyHz = 145_000_000,
                    WithinHz = 6_250,
                    CarriersHz = [150_000_000, 150_000_000, 155_000_000],
                    Orders = (2, 3),
                    Signals = 3,
                },
                null,
                CancellationToken.None).Answer!,
            text,
            TextInk.None);
        // 2 x 150 - 155, twice, and 150 + 150 - 155 of the two that share a frequency.
        Assert.Contains("3 mixtures land within", text.ToString(), StringComparison.Ordinal);
        Assert.Contains("150.0000 MHz stands there more than once", text.ToString(), StringComparison.Ordinal);
    }

    private static string Grouped(int n) => n.ToString("N0", new NumberFormatInfo { NumberGroupSeparator = " ", NumberGroupSizes = [3] });
}
