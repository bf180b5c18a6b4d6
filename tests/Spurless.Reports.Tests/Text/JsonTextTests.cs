using System.Text;
using System.Text.Json;
using CsCheck;
using Spurless.Reports.Text;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Tests.Text;

/// <summary>What all writers of JSON share: no figure that is none, decibels with six decimals, texts as they were.</summary>
public sealed class JsonTextTests
{
    private static readonly Gen<double> _figure = Gen.OneOf<double>(
        Gen.Double, Gen.OneOf(0.0, -0.0, double.NaN, double.PositiveInfinity, double.NegativeInfinity, double.Epsilon, -1e-9, 5e-7, 1e300));

    [Fact]
    public void Number_is_the_figure_itself_or_null() => _figure.Nullable().Sample(static value =>
    {
        JsonElement read = One(json => JsonText.Number(json, "x", value));
        if (value is { } number && double.IsFinite(number))
        {
            Assert.Equal(number, read.GetDouble());
            Assert.NotEqual("-0", read.GetRawText());
        }
        else
        {
            Assert.Equal(JsonValueKind.Null, read.ValueKind);
        }
    });

    [Fact]
    public void Decibels_have_six_decimals_and_no_negative_nothing() => Gen.OneOf<double>(
        Gen.Double[-300, 300], Gen.OneOf(0.0, -0.0, -4e-7, 4e-7, -6e-7, double.NaN, double.NegativeInfinity)).Nullable().Sample(
        static value =>
        {
            JsonElement read = One(json => JsonText.Decibels(json, "x", value));
            if (value is not { } number || !double.IsFinite(number))
            {
                Assert.Equal(JsonValueKind.Null, read.ValueKind);
                return;
            }

            Assert.Matches(@"^-?\d+\.\d{6}$", read.GetRawText());
            Assert.NotEqual("-0.000000", read.GetRawText());
            Assert.Equal(number, read.GetDouble(), 0.5000001e-6);
        });

    [Fact]
    public void Strings_come_back_as_they_were() => Gen.String.Array[0, 6].Sample(static texts =>
    {
        // A lone half of a character has no UTF-8: it comes back as the sign that stands for one (Unicode 16, 3.9, U+FFFD).
        JsonElement read = One(json => JsonText.Strings(json, "x", texts));
        Assert.Equal(
            texts.Select(static t => Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(t))),
            read.EnumerateArray().Select(static e => e.GetString()!));
    });

    [Fact]
    public void Terms_keep_their_order_and_their_signs() => Gen.Select(
        Gen.String[Gen.Char['a', 'z'], 1, 6], Gen.Int[-7, 7]).Array[0, 5].Sample(
        static of =>
        {
            Term[] terms = [.. of.Select(static (t, i) => new Term(i, t.Item1, 1_000_000 + i, t.Item2))];
            JsonElement read = One(json => JsonText.TermsOf(json, terms), "terms");
            Assert.Equal(
                terms.Select(static t => (t.Name, t.Coefficient)),
                read.EnumerateArray().Select(static e => (e.GetProperty("emitter").GetString()!, e.GetProperty("coefficient").GetInt32())));
        });

    [Fact]
    public void Objects_of_none_is_an_empty_list_and_of_many_one_each()
    {
        for (int count = 0; count < 4; count++)
        {
            JsonElement read = One(json => JsonText.Objects(
                json, "x", Enumerable.Range(0, count), i => json.WriteNumber("i", i)));
            Assert.Equal(Enumerable.Range(0, count), read.EnumerateArray().Select(static e => e.GetProperty("i").GetInt32()));
        }
    }

    [Fact]
    public void Write_ends_with_one_line_feed_and_has_no_mark_before_it()
    {
        using MemoryStream to = new();
        JsonText.Write(to, static json => json.WriteString("a", "b"));
        byte[] bytes = to.ToArray();
        Assert.Equal((byte)'{', bytes[0]);
        Assert.Equal("{\n  \"a\": \"b\"\n}\n", Encoding.UTF8.GetString(bytes));
    }

    private static JsonElement One(Action<Utf8JsonWriter> write, string key = "x")
    {
        using MemoryStream to = new();
        JsonText.Write(to, json => write(json));
        return JsonDocument.Parse(to.ToArray()).RootElement.GetProperty(key);
    }
}
