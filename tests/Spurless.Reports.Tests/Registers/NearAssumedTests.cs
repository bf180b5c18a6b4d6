using Spurless.Radio.Paths;
using Spurless.Register.Records;
using Spurless.Reports.Registers;
using Spurless.Sites.Levels;
using Spurless.Sites.Registers;

namespace Spurless.Reports.Tests.Registers;

/// <summary>What is assumed of many licences is told once, with of how many, the most frequent first. All records are invented.</summary>
public sealed class NearAssumedTests
{
    private static readonly LevelNote _how = new LevelNote.Predicted(new PathBasis.InFreeSpace(900), PathChoice.AsGiven);

    [Fact]
    public void Assumed_of_all_says_so_and_the_first_note_of_each_which_says_how_it_was_predicted_is_left_out() => Assert.Equal(
        ["of all: no feedline loss was given, so none is counted"],
        NearWriter.Assumed(Answer(3, static _ => [new LevelNote.NoFeedlineLoss()])));

    [Fact]
    public void Gains_taken_at_other_frequencies_are_one_line_over_their_span()
    {
        string[] lines = [.. NearWriter.Assumed(Answer(6, static i => i < 4
            ? [new LevelNote.GainOutOfBand(145_050_000, (i + 1) * 100_000_000, 10)] : [new LevelNote.NoFeedlineLoss()]))];
        Assert.Equal(
            [
                "of 4: the receive antenna's gain at 145.05 MHz is taken from 100 MHz to 400 MHz too, one sigma 10 dB more "
                    + "(antenna.response would tell)",
                "of 2: no feedline loss was given, so none is counted",
            ],
            lines);
    }

    [Fact]
    public void Gains_of_other_antennas_or_other_sigmas_stay_apart()
    {
        string[] lines = [.. NearWriter.Assumed(Answer(4, static i =>
            [new LevelNote.GainOutOfBand(i < 2 ? 145_050_000 : 433_000_000, 100_000_000 + i, i % 2 == 0 ? 6 : 10)]))];
        Assert.Equal(4, lines.Length);
        Assert.All(lines, static l => Assert.StartsWith("of 1: ", l, StringComparison.Ordinal));
    }

    [Fact]
    public void Assumed_names_eight_kinds_at_most_the_most_frequent_first()
    {
        string[] lines = [.. NearWriter.Assumed(Answer(66, static i =>
            [new LevelNote.FilterEnds("filter " + Group(i).ToString(System.Globalization.CultureInfo.InvariantCulture))]))];
        Assert.Equal(8, lines.Length);
        Assert.Equal(Enumerable.Range(0, 8).Select(static k => 11 - k), lines.Select(Count));
    }

    // 11 of the first kind, 10 of the next, 9, 8 ...: 66 in all.
    private static int Group(int i)
    {
        int kind = 0;
        for (int left = i, of = 11; left >= of; left -= of, of--)
        {
            kind++;
        }

        return kind;
    }

    private static int Count(string line) =>
        int.Parse(line["of ".Length..line.IndexOf(':', StringComparison.Ordinal)], System.Globalization.CultureInfo.InvariantCulture);

    private static NearAnswer Answer(int count, Func<int, LevelNote[]> notes) => new(
        "Quernmoss",
        "repeater input",
        25_000,
        [
            .. Enumerable.Range(0, count).Select(i => new NearEmitter
            {
                Record = new RegisterRecord
                {
                    Register = "invented extract", Licence = $"INV-{i}", Transmits = true, FrequencyHz = 153_350_000 + i,
                    Place = GeoPoint.Of(40, -35),
                },
                DistanceM = 900, BearingDegrees = 10, LevelDbm = -40, SigmaDb = 8, InSite = false, Assumed = [_how, .. notes(i)],
            }),
        ]);
}
