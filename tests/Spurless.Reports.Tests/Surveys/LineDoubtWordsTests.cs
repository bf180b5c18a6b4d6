using Spurless.Reports.Surveys;
using Spurless.Sites.Surveys;

namespace Spurless.Reports.Tests.Surveys;

/// <summary>Why a line may be the instrument's own, in the words the survey's table has had since it began.</summary>
public sealed class LineDoubtWordsTests
{
    public static TheoryData<LineDoubt, string> Words => new()
    {
        {
            new LineDoubt.MiddleOfRecording(),
            "it stands in the middle of the recording, where a receiver of this kind has a line of its own: tune it aside"
        },
        { new LineDoubt.MirrorImage(145.1314e6), "it is where the receiver's mirror image of 145.1314 MHz falls: tune it aside" },
        { new LineDoubt.Mixture(144.3e6, 144.3e6, 144.4e6), "the instrument itself would make it of 2 x 144.3000 - 144.4000" },
        { new LineDoubt.Mixture(144.3e6, 144.6e6, 144.4e6), "the instrument itself would make it of 144.3000 + 144.6000 - 144.4000" },
        {
            new LineDoubt.SankBehindPad(),
            "it sank into the noise behind the pad: whether the instrument made it is not known; take a smaller pad or narrower bins"
        },
        { new LineDoubt.AsRead("somebody thought so: years ago"), "somebody thought so: years ago" },
    };

    [Theory]
    [MemberData(nameof(Words))]
    public void Of_each_doubt_is_one_clause_and_what_to_do(LineDoubt doubt, string words)
    {
        Assert.Equal(words, LineDoubtWords.Of(doubt));
        Assert.StartsWith(LineDoubtWords.Reason(doubt), words, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_no_doubt_is_nothing() => Assert.Null(LineDoubtWords.Of(null));

    [Fact]
    public void Every_doubt_has_its_words() => Assert.Equal(
        typeof(LineDoubt).GetNestedTypes().Select(static t => t.Name).Order(StringComparer.Ordinal),
        Words.Select(static row => row.Data.Item1.GetType().Name).Distinct().Order(StringComparer.Ordinal));
}
