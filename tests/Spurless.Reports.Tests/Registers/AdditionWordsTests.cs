using Spurless.Reports.Registers;
using Spurless.Sites.Registers;

namespace Spurless.Reports.Tests.Registers;

/// <summary>Where an added emitter comes from, said beside its name: all that was assumed, and nothing that was not.</summary>
public sealed class AdditionWordsTests
{
    // Every combination of what a survey may not know: each is said where it holds, and only there.
    [Fact]
    public void Survey_says_what_was_taken_and_what_is_not_known()
    {
        foreach (long? raster in (long?[])[null, 12_500, 6_250])
        {
            foreach (bool narrow in (bool[])[true, false])
            {
                foreach (bool level in (bool[])[true, false])
                {
                    foreach (int may in (int[])[0, 1, 2])
                    {
                        string said = AdditionWords.Of(new AdditionOrigin.Survey
                        {
                            RasterHz = raster,
                            IsNarrow = narrow,
                            HasLevel = level,
                            MayBe = [.. Enumerable.Range(1, may).Select(static n => ($"call {n}", $"INV-{n}"))],
                        });
                        Assert.StartsWith("measured by a survey", said, StringComparison.Ordinal);
                        Assert.Equal(raster is not null, said.Contains("kHz raster", StringComparison.Ordinal));
                        Assert.Equal(raster == 12_500, said.Contains("the 12.5 kHz raster", StringComparison.Ordinal));
                        Assert.Equal(raster == 6_250, said.Contains("the 6.25 kHz raster", StringComparison.Ordinal));
                        Assert.Equal(narrow, said.Contains("narrower than could be seen", StringComparison.Ordinal));
                        Assert.Equal(!level, said.Contains("its level not known", StringComparison.Ordinal));
                        Assert.Equal(may > 0, said.Contains("it may be call 1, licence INV-1", StringComparison.Ordinal));
                        Assert.Equal(may > 1, said.EndsWith(" or call 2, licence INV-2", StringComparison.Ordinal));
                    }
                }
            }
        }
    }

    [Theory]
    [InlineData("", HeardInSurvey.No, null, "from the register invented extract")]
    [InlineData("INV-7", HeardInSurvey.No, null, "from the register invented extract, licence INV-7")]
    [InlineData("INV-7", HeardInSurvey.Heard, null, "from the register invented extract, licence INV-7, heard in a survey")]
    [InlineData("", HeardInSurvey.Measured, null, "from the register invented extract, level measured by a survey")]
    [InlineData("", HeardInSurvey.No, 11_200L,
        "from the register invented extract; its bandwidth is not in the register, 11.2 kHz is assumed")]
    public void Licensed_says_whose_it_is_and_what_a_survey_adds(string licence, HeardInSurvey heard, long? widthHz, string said) =>
        Assert.Equal(said, AdditionWords.Of(new AdditionOrigin.Licensed("invented extract", licence, heard, widthHz)));
}
