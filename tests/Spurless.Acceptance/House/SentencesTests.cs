using System.Globalization;
using System.Reflection;
using System.Text.RegularExpressions;

namespace Spurless.Acceptance.House;

/// <summary>
/// What is found is data up to floor 3; sentences are made above. Down here there are names, tokens of files, and refusals: 'what was
/// found; what to write instead' of whoever reads a text or a value of the user's. Whatever else says a sentence fails here.
/// </summary>
public partial class SentencesTests
{
    private static readonly string[] Rooms =
    [
        "Spurless.Numerics", "Spurless.Radio", "Spurless.Circuits", "Spurless.Fit", "Spurless.Design", "Spurless.Mixing",
        "Spurless.Signals", "Spurless.Register",
    ];

    /// <summary>Who refuses: a type or a folder, and what of the user's it reads.</summary>
    private static readonly Dictionary<string, string> Refusing = new(StringComparer.Ordinal)
    {
        // Texts and files.
        ["Spurless.Radio.Quantities"] = "a quantity's text",
        ["Spurless.Radio.Emissions.Emission"] = "an emission designator",
        ["Spurless.Radio.Feedlines.FeedlineType"] = "a feedline's type",
        ["Spurless.Radio.Noise.ExternalNoise"] = "surroundings of an antenna",
        ["Spurless.Radio.Terrain.Elevation"] = "an elevation file",
        ["Spurless.Circuits.Touchstone"] = "a Touchstone file",
        ["Spurless.Fit.MagnitudeSweepReader"] = "a sweep of magnitudes",
        ["Spurless.Register.Importing.LayoutRecognition"] = "a file of another register",
        ["Spurless.Register.Importing.RegisterImport"] = "a register's files",
        ["Spurless.Register.Layouts"] = "a register's tables, with words of their own that it looks for",
        ["Spurless.Register.Reading.RegisterFile"] = "a register's files",
        ["Spurless.Register.Storage"] = "a register's database",
        ["Spurless.Signals.Recordings"] = "a recording",
        ["Spurless.Signals.Spectra.SweepColumns"] = "the heads of a sweep",
        ["Spurless.Signals.Spectra.SweepReader"] = "a sweep of an analyser",

        // Values of a document.
        ["Spurless.Radio.Paths.FreeSpace"] = "a geometry without a distance, or too near",
        ["Spurless.Radio.Paths.GeoPoint"] = "latitude and longitude",
        ["Spurless.Radio.Paths.Geodesic"] = "two places opposite each other",
        ["Spurless.Radio.Paths.KnifeEdge"] = "an obstacle that does not stand between",
        ["Spurless.Radio.Paths.OkumuraHata"] = "a geometry far outside the model",
        ["Spurless.Radio.Paths.PathGeometry"] = "a geometry that cannot be",
        ["Spurless.Radio.Paths.PathModels"] = "a path's name",
        ["Spurless.Radio.Paths.PathResult"] = "gains that outweigh a path",
        ["Spurless.Radio.Paths.PlaneEarth"] = "a geometry without heights",
        ["Spurless.Radio.Paths.SameStructure"] = "spacings that cannot be",
        ["Spurless.Radio.Terrain.TerrainConditions"] = "conditions that cannot be",
        ["Spurless.Radio.Terrain.TerrainPrediction"] = "a path that no model holds for",
        ["Spurless.Radio.Terrain.TerrainProfile"] = "a profile that cannot be",
        ["Spurless.Circuits.Coils.CoilCalculator"] = "a coil that cannot be",
        ["Spurless.Circuits.Measured.MeasuredTwoPort"] = "a frequency outside a sweep",
        ["Spurless.Circuits.Requirements.RequirementMask"] = "a requirement of another impedance",
        ["Spurless.Circuits.Response.ResponseCalculator"] = "frequencies outside what is known",
        ["Spurless.Circuits.Sensitivity.SensitivityAnalysis"] = "a circuit without a solution",
        ["Spurless.Circuits.Solving"] = "a circuit that cannot be",
        ["Spurless.Design.Questions.DesignCheck"] = "a requirement that cannot be",
        ["Spurless.Fit.CircuitFit"] = "a sweep that tells nothing",
        ["Spurless.Fit.SweepCheck"] = "a sweep that does not belong to the circuit",

        // Names of families of filters, and bugs told by a helper that throws.
        ["Spurless.Design.Families.TankFilters"] = "names of families",
        ["Spurless.Design.Families.TrapFilters"] = "names of families",
        ["Spurless.Mixing.Evidence"] = "a caller's bug",
        ["Spurless.Mixing.Search.SearchProblem"] = "a caller's bug",
    };

    /// <summary>Properties of results that are texts: what each is.</summary>
    private static readonly Dictionary<string, string> Texts = new(StringComparer.Ordinal)
    {
        ["Spurless.Circuits.Parts.Circuit.PortIn"] = "a node",
        ["Spurless.Circuits.Parts.Circuit.PortOut"] = "a node",
        ["Spurless.Circuits.Parts.Coupling.First"] = "a part",
        ["Spurless.Circuits.Parts.Coupling.Second"] = "a part",
        ["Spurless.Circuits.Parts.Line.FromReturn"] = "a node",
        ["Spurless.Circuits.Parts.Line.ToReturn"] = "a node",
        ["Spurless.Circuits.Parts.Transformer.FirstFrom"] = "a node",
        ["Spurless.Circuits.Parts.Transformer.FirstTo"] = "a node",
        ["Spurless.Circuits.Parts.Transformer.SecondFrom"] = "a node",
        ["Spurless.Circuits.Parts.Transformer.SecondTo"] = "a node",
        ["Spurless.Circuits.Requirements.BypassReference.Path"] = "a file",
        ["Spurless.Circuits.Solving.CircuitFault.What"] = "a refusal",
        ["Spurless.Circuits.Solving.CircuitFault.Remedy"] = "a refusal",
        ["Spurless.Circuits.Tolerance.ToleranceResult.HeldParts"] = "parts",
        ["Spurless.Circuits.Tolerance.ToleranceResult.MostWorthTuning"] = "a part",
        ["Spurless.Circuits.Touchstone.TouchstoneWriteOptions.Comments"] = "the caller's comments",
        ["Spurless.Design.Designing.DesignCandidate.Family"] = "a family's name",
        ["Spurless.Design.Families.TuningSpot.Capacitor"] = "a part",
        ["Spurless.Design.Families.TuningSpot.Coil"] = "a part",
        ["Spurless.Design.Layout.StrayCoupling.First"] = "a part",
        ["Spurless.Design.Layout.StrayCoupling.Second"] = "a part",
        ["Spurless.Design.Questions.DesignFault.Key"] = "a key of a file",
        ["Spurless.Design.Questions.DesignFault.What"] = "a refusal",
        ["Spurless.Design.Questions.DesignFault.Remedy"] = "a refusal",
        ["Spurless.Design.Tuning.TuningStep.Adjust"] = "parts",
        ["Spurless.Design.Tuning.TuningStep.OpenPart"] = "a part",
        ["Spurless.Design.Tuning.TuningStep.ShortNode"] = "a node",
        ["Spurless.Design.Winding.CoilTapPoint.Coupling"] = "a part",
        ["Spurless.Design.Winding.CoilTapPoint.LowerPart"] = "a part",
        ["Spurless.Fit.FittedLead.Capacitor"] = "a part",
        ["Spurless.Fit.InseparableParts.HeldBy"] = "parts",
        ["Spurless.Fit.NextMeasurement.AcrossNode"] = "parts",
        ["Spurless.Mixing.Causes.CauseFinding.Modulated"] = "an emitter",
        ["Spurless.Mixing.Causes.OwnCarrierLimit.Product"] = "a mixture's name",
        ["Spurless.Radio.Emissions.Emission.Class"] = "symbols of a designator",
        ["Spurless.Radio.Paths.PathResult.Refused"] = "a refusal",
        ["Spurless.Radio.Quantities.SenseRange.Words"] = "a part of a refusal",
        ["Spurless.Radio.Terrain.Elevation.SampledProfile.Tiles"] = "files",
        ["Spurless.Radio.Terrain.ProfileProblem.Text"] = "a refusal",
        ["Spurless.Radio.Terrain.TerrainPrediction.Refused"] = "a refusal",
        ["Spurless.Register.Importing.ImportAnswer.Registers"] = "registers",
        ["Spurless.Register.Importing.ImportAnswer.Rejects"] = "a file",
        ["Spurless.Register.Importing.ImportQuestion.Database"] = "a file",
        ["Spurless.Register.Importing.ImportQuestion.Files"] = "files",
        ["Spurless.Register.Importing.ImportQuestion.Rejects"] = "a file",
        ["Spurless.Register.Records.RegisterRecord.CallSign"] = "a field of a record",
        ["Spurless.Register.Records.RegisterRecord.Emission"] = "a field of a record",
        ["Spurless.Register.Records.RegisterRecord.Licence"] = "a field of a record",
        ["Spurless.Register.Records.RegisterRecord.Register"] = "a field of a record",
        ["Spurless.Register.Records.RegisterRecord.Service"] = "a field of a record",
        ["Spurless.Register.Records.RegisterRecord.StationClass"] = "a field of a record",
        ["Spurless.Signals.Recognition.Evidence.OtherPolarity"] = "a code of a standard",
        ["Spurless.Signals.Recognition.Evidence.Standard"] = "a standard",
        ["Spurless.Signals.Recognition.Finding.Code"] = "a code of a standard",
        ["Spurless.Signals.Spectra.SweepColumns.Frequency"] = "a head of a table",
        ["Spurless.Signals.Spectra.SweepColumns.Level"] = "a head of a table",
    };

    [Fact]
    public void Sentences_below_the_services_are_refusals()
    {
        ILookup<string, string> found = Rooms.Select(Assembly.Load).SelectMany(CompiledText.Of)
            .Where(static t => Sentence().IsMatch(t.Text))
            .ToLookup(static t => t.Holder.FullName!.Split('`')[0], static t => t.Text, StringComparer.Ordinal);
        string[] strange =
        [
            .. found.Where(static g => !Refusing.Keys.Any(k => Under(g.Key, k))).Select(static g => $"{g.Key}: {g.First()}")
                .Order(StringComparer.Ordinal),
        ];
        Assert.True(strange.Length == 0, "sentences below the services:\n" + string.Join('\n', strange));
        string[] idle = [.. Refusing.Keys.Where(k => !found.Any(g => Under(g.Key, k)))];
        Assert.True(idle.Length == 0, "refuse nothing any more: " + string.Join(", ", idle));
    }

    /// <summary>The test's own eyes: it sees a sentence, a piece of an interpolated one, and no exception's message.</summary>
    [Fact]
    public void Sentences_of_this_room_are_seen()
    {
        IEnumerable<string> seen = CompiledText.Of(typeof(SentencesTests).Assembly).Where(static t => t.Holder == typeof(Eyes))
            .Select(static t => t.Text).Where(static t => Sentence().IsMatch(t));
        Assert.Equal(["a sentence that is seen", "it is seen that ", " lies in holes"], seen);
    }

    /// <summary>Data of a result are figures and names; a text among them is one of those that stand here.</summary>
    [Fact]
    public void Results_below_the_services_hold_no_sentences()
    {
        string[] found =
        [
            .. Rooms.Select(Assembly.Load).SelectMany(static a => a.GetTypes())
                .Where(static t => t.IsVisible && IsRecord(t))
                .SelectMany(static t => t.GetProperties(BindingFlags.Public | BindingFlags.Instance | BindingFlags.DeclaredOnly))
                .Where(static p => IsText(p.PropertyType))
                .Select(static p => $"{p.DeclaringType!.FullName!.Split('`')[0].Replace('+', '.')}.{p.Name}")
                .Order(StringComparer.Ordinal),
        ];
        string[] strange = [.. found.Where(static f => !Names.Contains(f[(f.LastIndexOf('.') + 1)..]) && !Texts.ContainsKey(f))];
        Assert.True(found.Length > 60, $"only {found.Length} texts were seen");
        Assert.True(strange.Length == 0, "texts in results, which are to be data:\n" + string.Join('\n', strange));
        string[] idle = [.. Texts.Keys.Except(found)];
        Assert.True(idle.Length == 0, "are no texts any more: " + string.Join(", ", idle));
    }

    /// <summary>What a property is called that names a thing: a part, an emitter, a node, a file.</summary>
    private static readonly HashSet<string> Names = new(StringComparer.Ordinal)
    {
        "Name", "Model", "Of", "At", "From", "To", "Part", "Parts", "Emitter", "Node", "Nodes", "File",
    };

    private static bool Under(string type, string key) => type == key || type.StartsWith(key + ".", StringComparison.Ordinal);

    private static bool IsRecord(Type type) => type.GetMethod("PrintMembers", BindingFlags.NonPublic | BindingFlags.Instance) is not null;

    private static bool IsText(Type type) =>
        type == typeof(string) || type.GetInterfaces().Append(type).Any(static i => i == typeof(IEnumerable<string>));

    /// <summary>Three words of small letters, one after the other.</summary>
    [GeneratedRegex(@"(?<![\w<&])[a-z']{2,} [a-z']{2,} [a-z']{2,}(?!\w)")]
    private static partial Regex Sentence();
}

/// <summary>What the test's own eyes look at.</summary>
file static class Eyes
{
    internal static string Seen => "a sentence that is seen";

    internal static string Pieces(int holes) => string.Create(CultureInfo.InvariantCulture, $"it is seen that {holes} lies in holes");

    internal static void Unseen() => throw new InvalidOperationException("what an exception says is not seen");
}
