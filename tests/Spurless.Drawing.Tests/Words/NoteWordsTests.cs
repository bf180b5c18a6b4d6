using System.Reflection;
using Spurless.Drawing.Words;
using Spurless.Mixing.Causes;
using Spurless.Radio.Paths;
using Spurless.Radio.Terrain;
using Spurless.Register.Records;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;

namespace Spurless.Drawing.Tests.Words;

/// <summary>The sentences are those that the results of every release so far have had; what a note is comes from its data alone.</summary>
public sealed class NoteWordsTests
{
    public static TheoryData<PathBasis, string> Bases => new()
    {
        { new PathBasis.InFreeSpace(1234.4), "free space (ITU-R P.525) over 1.234 km" },
        {
            new PathBasis.OverPlaneEarth(5000, 30, 2.04, 367.24),
            "plane earth over 5 km, heights 30 and 2 m, beyond the break point of 0.367 km"
        },
        {
            new PathBasis.WithinBreakPoint(367.24, 300),
            "plane earth holds beyond its break point of 0.367 km; free space taken over 0.3 km"
        },
        {
            new PathBasis.ByHata("hata open", 10_000, 30, 1.5),
            "hata open (Okumura-Hata, ITU-R P.529) over 10 km, heights 30 and 1.5 m"
        },
        {
            new PathBasis.OverOneEdge(10_000, 9.416, 0.39477),
            "free space over 10 km and 9.4 dB for one knife edge of v = 0.39 (ITU-R P.526)"
        },
        {
            new PathBasis.OnOneStructure(6.096, 0),
            "antennas on one structure, 6.1 m apart vertically and 0 m horizontally"
        },
        {
            new TerrainBasis.OverGround(17_500, TerrainMechanism.Diffraction, 23.46),
            "over the ground (ITU-R P.1812), 17.5 km, mostly by diffraction: 23.5 dB over free space"
        },
        {
            new TerrainBasis.OverGround(17_500, TerrainMechanism.LineOfSight, -0.04),
            "over the ground (ITU-R P.1812), 17.5 km, in line of sight: 0.0 dB over free space"
        },
        {
            new TerrainBasis.OutsideModel(200, new(new(RangeFigure.Length, 200), SimplePath.PlaneEarth, 0)),
            "over 0.2 km of known ground, but 0.2 km is outside ITU-R P.1812, which holds from 0.25 to 3,000 km; plane earth taken"
        },
    };

    public static TheoryData<PathRemark, string> Remarks => new()
    {
        {
            new PathRemark.BeyondHorizon(40_000, 28_412),
            "40 km is beyond the radio horizon of 28.4 km over level ground: the loss is likely higher, unless hills lift an antenna"
        },
        {
            new PathRemark.OutsideFit("hata urban", PathFigure.Frequency, 145e6, 150e6, 1500e6),
            "hata urban: frequency 145 MHz is outside the model's 150 to 1500 MHz"
        },
        {
            new PathRemark.OutsideFit("hata urban", PathFigure.Distance, 900, 1000, 20_000),
            "hata urban: distance 0.9 km is outside the model's 1 to 20 km"
        },
        {
            new PathRemark.OutsideFit("hata urban", PathFigure.HigherAntenna, 25, 30, 200),
            "hata urban: height of the higher antenna 25 m is outside the model's 30 to 200 m"
        },
        {
            new PathRemark.OutsideFit("hata urban", PathFigure.LowerAntenna, 12, 1, 10),
            "hata urban: height of the lower antenna 12 m is outside the model's 1 to 10 m"
        },
        { new PathRemark.LessThanFreeSpace("hata open"), "hata open gave less than free space; free space taken" },
        {
            new PathRemark.SpacingUnderWavelength(1.414, 2.053),
            "a spacing of 1.41 m is under one wavelength (2.05 m): the formula does not hold this near"
        },
        {
            new PathRemark.GainAntennasNear(),
            "gain antennas less than 15.24 m (50 ft) apart sideways are not in each other's far field: "
                + "the isolation may be several dB off"
        },
        { new PathRemark.IsolationCapped(), "capped at 70 dB: beyond that the structure and the feedlines couple" },
        {
            new PathRemark.GroundNotKnown(HeightsKnown: true),
            "grounds of both ends are not all known: in free space it is the most that it can be"
        },
        {
            new PathRemark.GroundNotKnown(HeightsKnown: false),
            "heights and grounds of both ends are not all known: in free space it is the most that it can be"
        },
        {
            new TerrainRemark.OutsideModel(new(RangeFigure.Frequency, 10e9), SimplePath.FreeSpace, 0),
            "10000 MHz is outside ITU-R P.1812, which holds from 30 MHz to 6 GHz; free space taken, the least it can lose"
        },
        {
            new TerrainRemark.OutsideModel(new(RangeFigure.ReceiverHeight, 0.5), SimplePath.Edges, 12.34),
            "0.5 m of the receiving antenna is outside ITU-R P.1812, which holds from 1 to 3,000 m over ground; "
                + "free space and 12.3 dB for what stands in the way (ITU-R P.526) taken"
        },
        {
            new TerrainRemark.VoidsFilled(12, 400, 310.4, EndFilled: true),
            "12 of 400 points had no height in the elevation files and were filled from their neighbours, "
                + "the longest stretch 310 m, an antenna's foot among them"
        },
        {
            new TerrainRemark.GroundDiffers(OfSite: false, 410, 366.6),
            "the emitter's entry puts the ground at 410 m, the elevation file at 367 m, which is taken: check the coordinates"
        },
    };

    public static TheoryData<LevelNote, string> Levels => new()
    {
        { new LevelNote.Measured(LevelsAt.FeedlineEnd), "measured at the feedline's end" },
        {
            new LevelNote.Predicted(new PathBasis.InFreeSpace(1000), PathChoice.AsGiven),
            "predicted: free space (ITU-R P.525) over 1 km, as given"
        },
        {
            new LevelNote.OfCoupling("b", "a", new LevelNote.Predicted(new PathBasis.InFreeSpace(1000), PathChoice.GroundsNotKnown)),
            "coupling from b to a: predicted, free space (ITU-R P.525) over 1 km, chosen because grounds of both ends are not all known, "
                + "antennas' gains towards each other; measure it where it decides"
        },
        {
            new LevelNote.OfCoupling("b", "a", new LevelNote.Predicted(new PathBasis.OnOneStructure(6, 0), PathChoice.None)),
            "coupling from b to a: antennas on one structure, 6 m apart vertically and 0 m horizontally, by their heights"
        },
        {
            new LevelNote.OfCoupling("b", "a", new LevelNote.GainNotGiven(PathEnd.Emitter, "b")),
            "coupling from b to a: the gain of the antenna of b was not given, so 0 dBi is counted"
        },
        {
            new LevelNote.OfEmitter("c", new LevelNote.GainNotGiven(PathEnd.Receiver)),
            "c: the gain of the receiver's antenna was not given, so 0 dBi is counted"
        },
        {
            new LevelNote.CrossedPolarisations(20),
            "one antenna is vertical, the other horizontal: 20 dB between them (typical)"
        },
        {
            new LevelNote.GainOutOfBand(145_050_000, 170_000_000, 10),
            "the receive antenna's gain at 145.05 MHz is taken at 170 MHz too, one sigma 10 dB more (antenna.response would tell)"
        },
        {
            new LevelNote.GroundNotCounted(null), "the ground between is not counted: their places are not known as coordinates"
        },
    };

    [Fact]
    public void Notes_that_differ_in_their_frequency_are_one_sentence_over_their_span()
    {
        LevelNote.GainOutOfBand[] notes =
            [new(145_050_000, 459_350_000, 10), new(145_050_000, 50_850_000, 10), new(145_050_000, 164_200_000, 10)];
        Assert.Equal(
            "the receive antenna's gain at 145.05 MHz is taken from 50.85 MHz to 459.35 MHz too, one sigma 10 dB more "
                + "(antenna.response would tell)",
            LevelNoteWords.OfAlike(notes));
        Assert.Equal(LevelNoteWords.Of(notes[0]), LevelNoteWords.OfAlike([notes[0], notes[0]]));
        LevelNote.NoFeedlineLoss none = new();
        Assert.Equal(LevelNoteWords.Of(none), LevelNoteWords.OfAlike([none, none]));
    }

    [Theory]
    [MemberData(nameof(Bases))]
    public void Basis_in_words(PathBasis basis, string expected) => Assert.Equal(expected, PathNoteWords.Of(basis));

    [Theory]
    [MemberData(nameof(Remarks))]
    public void Remark_in_words(PathRemark remark, string expected) => Assert.Equal(expected, PathNoteWords.Of(remark));

    [Theory]
    [MemberData(nameof(Levels))]
    public void Level_note_in_words(LevelNote note, string expected)
    {
        Assert.Equal(expected, LevelNoteWords.Of(note));
        Assert.Equal(expected, AssumptionWords.Of(Assumption.Told(note)));
    }

    [Theory]
    [InlineData(PathChoice.None, "")]
    [InlineData(PathChoice.AsGiven, ", as given")]
    [InlineData(PathChoice.GroundBetweenKnown, ", chosen because the ground between is known")]
    [InlineData(PathChoice.HeightsAndGroundsNotKnown, ", chosen because heights and grounds of both ends are not all known")]
    [InlineData(PathChoice.GroundsNotKnown, ", chosen because grounds of both ends are not all known")]
    [InlineData(PathChoice.EndsKnown, ", chosen because heights and grounds of both ends are known")]
    [InlineData(PathChoice.WithinBreakPoint, ", chosen because it is nearer than the break point of plane earth")]
    public void Choice_in_words(PathChoice choice, string expected) =>
        Assert.Equal("free space (ITU-R P.525) over 1 km" + expected, PathNoteWords.Of(new PathBasis.InFreeSpace(1000), choice));

    /// <summary>Whoever adds a note and forgets its words finds out here.</summary>
    [Fact]
    public void Every_note_has_words_of_its_own()
    {
        string[] notes = [.. Every(typeof(LevelNote)).Cast<LevelNote>().Select(LevelNoteWords.Of)];
        string[] remarks = [.. Every(typeof(PathRemark)).Cast<PathRemark>().Select(PathNoteWords.Of)];
        string[] bases = [.. Every(typeof(PathBasis)).Cast<PathBasis>().Select(PathNoteWords.Of)];
        Assert.True(notes.Length > 25 && remarks.Length > 12 && bases.Length == 8, $"{notes.Length} {remarks.Length} {bases.Length}");
        Assert.All((string[][])[notes, remarks, bases], static all =>
        {
            Assert.Equal(all.Length, all.Distinct(StringComparer.Ordinal).Count());
            Assert.All(all, static words => Assert.False(words.EndsWith('.') || words.Contains("  ", StringComparison.Ordinal), words));
        });
    }

    [Fact]
    public void Every_mechanism_and_every_note_of_a_register_has_words_of_its_own()
    {
        TerrainMechanism[] ways = Enum.GetValues<TerrainMechanism>();
        Assert.Equal(ways.Length, ways.Select(PathNoteWords.Name).Distinct().Count());
        RecordNotes[] notes = [.. Enum.GetValues<RecordNotes>().Where(static n => n != RecordNotes.None)];
        Assert.Equal(notes.Length, notes.Select(static n => LevelNoteWords.Of(new LevelNote.OfRecord(n))).Distinct().Count());
    }

    /// <summary>One of each kind, with figures of its own.</summary>
    private static IEnumerable<object> Every(Type root) =>
        ((Type[])[.. typeof(PathRemark).Assembly.GetTypes(), .. typeof(LevelNote).Assembly.GetTypes()])
            .Where(t => t.IsSubclassOf(root) && !t.IsAbstract)
            .Select(static t => Made(t));

    private static object Made(Type type)
    {
        ConstructorInfo made = type.GetConstructors().OrderByDescending(static c => c.GetParameters().Length).First();
        return made.Invoke([.. made.GetParameters().Select((p, i) => Value(p.ParameterType, i))]);
    }

    private static object? Value(Type type, int index) => type switch
    {
        _ when type == typeof(double) => 100.0 + index,
        _ when type == typeof(long) => 145_000_000L + index,
        _ when type == typeof(int) => 3 + index,
        _ when type == typeof(bool) => true,
        _ when type == typeof(string) => "one",
        _ when type == typeof(RecordNotes) => RecordNotes.NoHeight,
        _ when type == typeof(LevelNote) => new LevelNote.VerticalTaken(),
        _ when type == typeof(PathBasis) => new PathBasis.InFreeSpace(1000),
        _ when type == typeof(PathRemark) => new PathRemark.SizesNotKnown(),
        _ when type.IsEnum => Enum.GetValues(type).GetValue(0),
        _ => Made(type),
    };
}
