using CsCheck;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Words;

/// <summary>Names in a row, typography, and what must stand in a mixture's own row.</summary>
public sealed class NameListTests
{
    private static readonly Gen<string> _name = Gen.String[Gen.Char['b', 'z'], 1, 8];

    [Fact]
    public void Of_any_names_tells_each_or_counts_the_rest() => Gen.Select(_name.Array[0, 9], Gen.Int[1, 9]).Sample(static (names, most) =>
    {
        string says = NameList.Of(names, most);
        string[] told = [.. says.Split(", ").SelectMany(static p => p.Split(" and ")).Where(static n => n.Length > 0)];
        if (names.Length <= Math.Max(1, most))
        {
            Assert.Equal(names, told);
        }
        else
        {
            Assert.Equal([.. names.Take(most), $"{names.Length - most} more"], told);
        }

        Assert.Equal(names.Length > 1 ? 1 : 0, says.Split(" and ").Length - 1);
    });

    [Fact]
    public void Signed_changes_the_sign_before_figures_and_nothing_else() => Gen.Select(
        Gen.OneOf("-12.5 dB", "(-3)", "half-duplex", "5-6", "a - b", "-x", "[-1", "to -160"), Gen.OneOf(" ", ", ")).Array[1, 6].Sample(
        static parts =>
        {
            string plain = string.Concat(parts.Select(static p => p.Item1 + p.Item2)), fine = Typography.Fine.Signed(plain);
            Assert.Equal(plain, fine.Replace('\u2212', '-'));
            Assert.Equal(plain, Typography.Plain.Signed(plain));
            for (int i = 0; i < plain.Length; i++)
            {
                bool sign = plain[i] == '-' && i + 1 < plain.Length && char.IsAsciiDigit(plain[i + 1])
                    && (i == 0 || plain[i - 1] is ' ' or '(' or '[');
                Assert.Equal(sign ? '\u2212' : plain[i], fine[i]);
            }
        });

    [Fact]
    public void Trust_says_nothing_of_a_level_that_can_be_relied_on_and_why_of_one_that_cannot() => RandomStudies.Receiver().Sample(
        static receiver =>
        {
            foreach (ProductFinding product in receiver.Products)
            {
                string says = RowWords.Trust(product);
                Assert.Equal(product.Trustworthy, says.Length == 0);
                Assert.True(says.Length == 0 || says.StartsWith("; level not trustworthy: ", StringComparison.Ordinal));
                Assert.Equal(product is { Trustworthy: false, Saturated: true }, says.Contains("capped", StringComparison.Ordinal));
            }
        },
        iter: 100);

    [Fact]
    public void ComparisonWords_of_each_kind_name_a_before_that_is_not_its_after()
    {
        ComparisonWords[] all =
            [ComparisonWords.Filter, ComparisonWords.FilterAndMore, ComparisonWords.Changes, ComparisonWords.WayOut, ComparisonWords.Held];
        Assert.All(all, static w =>
        {
            Assert.NotEqual(w.Before, w.After);
            Assert.NotEqual(w.BeforeShort, w.AfterShort);
            Assert.True(w.BeforeShort.Length <= 8 && w.AfterShort.Length <= 8, "a narrow column");
            Assert.EndsWith(".", w.TakesNone, StringComparison.Ordinal);
            Assert.True(char.IsUpper(w.With[0]) && char.IsLower(w.Before[0]));
        });
        Assert.Equal(all.Length, all.Select(static w => w.With).Distinct().Count());
    }
}
