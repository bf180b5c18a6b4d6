using System.Text.Json;
using System.Text.RegularExpressions;

namespace Spurless.Reports.Tests.Whole;

/// <summary>What every JSON result keeps to (docs/formats/results.md), whichever service it comes from.</summary>
public sealed partial class JsonLawTests
{
    public static TheoryData<string> Answers => [.. Answered.Jsons.Keys];

    [Theory]
    [MemberData(nameof(Answers))]
    public void Begins_with_its_format_and_ends_with_a_line_feed(string answer)
    {
        string json = Answered.JsonOf(answer);
        JsonElement root = JsonDocument.Parse(json).RootElement;
        Assert.Equal("format", root.EnumerateObject().First().Name);
        Assert.Equal($"spurless-{answer}/1", root.GetProperty("format").GetString());
        Assert.EndsWith("}\n", json, StringComparison.Ordinal);
        Assert.DoesNotContain('\r', json);
    }

    [Theory]
    [MemberData(nameof(Answers))]
    public void Has_no_key_twice_and_every_key_in_small_letters(string answer)
    {
        foreach ((string path, JsonElement of) in Walk("", Parsed(answer)).Where(static e => e.Value.ValueKind == JsonValueKind.Object))
        {
            string[] keys = [.. of.EnumerateObject().Select(static p => p.Name)];
            Assert.True(keys.Distinct().Count() == keys.Length, $"{path}: a key stands twice in {string.Join(", ", keys)}");
            Assert.All(keys, static k => Assert.Matches("^[a-z][a-z0-9_]*$", k));
        }
    }

    [Theory]
    [MemberData(nameof(Answers))]
    public void Has_figures_that_are_finite_and_none_that_is_a_negative_nothing(string answer)
    {
        foreach ((string path, JsonElement of) in Walk("", Parsed(answer)).Where(static e => e.Value.ValueKind == JsonValueKind.Number))
        {
            Assert.False(NegativeZero().IsMatch(of.GetRawText()), $"{path}: {of.GetRawText()}");
            Assert.True(double.IsFinite(of.GetDouble()), path);
        }

        // A figure that is none is null, and no word for it.
        Assert.DoesNotContain(
            Walk("", Parsed(answer)),
            static e => e.Value.ValueKind == JsonValueKind.String && e.Value.GetString() is "NaN" or "Infinity" or "-Infinity" or "null");
    }

    [Theory]
    [MemberData(nameof(Answers))]
    public void Frequencies_are_above_nothing_and_levels_where_levels_can_be(string answer)
    {
        foreach ((string path, JsonElement of) in Walk("", Parsed(answer)).Where(static e => e.Value.ValueKind == JsonValueKind.Number))
        {
            string key = path[(path.LastIndexOf('.') + 1)..];
            double figure = of.GetDouble();
            if (key is "frequency_hz" or "present_hz" or "transmit_hz" or "channel_hz" or "raster_hz")
            {
                Assert.True(figure > 0, $"{path}: {figure}");
            }
            else if (key.EndsWith("_dbm", StringComparison.Ordinal))
            {
                Assert.InRange(figure, -400, 100);
            }
            else if (key is "probability" or "prior" or "yield" or "quiet_chance" or "on_share" or "share" or "decides" or "range_share")
            {
                Assert.InRange(figure, 0, key == "range_share" ? 10 : 1);
            }
            else if (key is "sigma_db" or "harmful" or "marginal" or "unknown" or "order" or "tried" or "products_left_out")
            {
                Assert.True(figure >= 0, $"{path}: {figure}");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Answers))]
    public void Terms_make_their_frequency_with_signs_that_make_it_positive(string answer)
    {
        if (answer is "coil" or "bypass" or "stress" or "tolerance" or "response")
        {
            Assert.DoesNotContain(Walk("", Parsed(answer)), static e => e.Path.EndsWith(".terms", StringComparison.Ordinal));
            return;
        }

        foreach ((string _, JsonElement of) in Walk("", Parsed(answer)).Where(static e => e.Value.ValueKind == JsonValueKind.Object
            && e.Value.TryGetProperty("terms", out JsonElement _)))
        {
            JsonElement[] terms = [.. of.GetProperty("terms").EnumerateArray()];
            Assert.NotEmpty(terms);
            Assert.DoesNotContain(terms, static t => t.GetProperty("coefficient").GetInt32() == 0);
            if (of.TryGetProperty("order", out JsonElement order))
            {
                Assert.Equal(order.GetInt32(), terms.Sum(static t => Math.Abs(t.GetProperty("coefficient").GetInt32())));
            }
        }
    }

    [Theory]
    [InlineData("study")]
    [InlineData("locate")]
    [InlineData("cure")]
    [InlineData("stress")]
    [InlineData("tolerance")]
    public void Names_come_back_as_they_were_given(string answer)
    {
        HashSet<string> all = [.. Walk("", Parsed(answer)).Where(static e => e.Value.ValueKind == JsonValueKind.String)
            .Select(static e => e.Value.GetString()!)];
        Assert.Contains(Answered.Formula, all);
        if (answer is not "cure")
        {
            Assert.Contains(answer is "study" or "locate" ? Answered.Element : Answered.Quoted, all);
        }
    }

    private static JsonElement Parsed(string answer) => JsonDocument.Parse(Answered.JsonOf(answer)).RootElement;

    private static IEnumerable<(string Path, JsonElement Value)> Walk(string path, JsonElement at)
    {
        yield return (path, at);
        IEnumerable<(string, JsonElement)> below = at.ValueKind switch
        {
            JsonValueKind.Object => at.EnumerateObject().SelectMany(p => Walk($"{path}.{p.Name}", p.Value)),
            JsonValueKind.Array => at.EnumerateArray().SelectMany((e, i) => Walk($"{path}[{i}]", e)),
            _ => [],
        };
        foreach ((string, JsonElement) one in below)
        {
            yield return one;
        }
    }

    [GeneratedRegex(@"^-0(\.0*)?([eE].*)?$")]
    private static partial Regex NegativeZero();
}
