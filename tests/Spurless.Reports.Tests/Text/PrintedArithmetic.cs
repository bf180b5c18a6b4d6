using System.Globalization;

namespace Spurless.Reports.Tests.Text;

/// <summary>Works out a mixture's printed arithmetic as a reader would: <c>466.1000 - 2 x 160.5250 = 145.0500</c>.</summary>
internal static class PrintedArithmetic
{
    /// <summary>Asserts that both sides are equal, that every figure has one number of decimals, and that it does not begin with a
    /// minus.</summary>
    public static void AddsUp(string printed)
    {
        string[] words = printed.Replace('\u2212', '-').Replace('\u00D7', 'x').Replace('\u00A0', ' ').Split(' ');
        decimal sum = 0;
        decimal times = 1;
        int sign = 1;
        int? decimals = null;
        Assert.NotEqual('-', printed[0]);
        Assert.NotEqual('\u2212', printed[0]);
        for (int i = 0; i < words.Length; i++)
        {
            switch (words[i])
            {
                case "+" or "-":
                    sign = words[i] == "+" ? 1 : -1;
                    break;
                case "=":
                    Assert.Equal(words.Length - 2, i);
                    Assert.Equal(decimal.Parse(words[^1], CultureInfo.InvariantCulture), sum);
                    return;
                case "x":
                    times = decimal.Parse(words[i - 1], CultureInfo.InvariantCulture);
                    break;
                case var _ when i + 1 < words.Length && words[i + 1] == "x":
                    break;
                default:
                    int here = words[i].Length - words[i].IndexOf('.', StringComparison.Ordinal) - 1;
                    Assert.Equal(decimals ??= here, here);
                    sum += sign * times * decimal.Parse(words[i], CultureInfo.InvariantCulture);
                    times = 1;
                    break;
            }
        }

        Assert.Fail($"no '=' in {printed}");
    }
}
