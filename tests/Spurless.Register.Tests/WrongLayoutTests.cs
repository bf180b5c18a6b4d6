using Spurless.Files.Diagnostics;
using Spurless.Register.Importing;
using Spurless.Register.Layouts;

namespace Spurless.Register.Tests;

/// <summary>Another country's files: by what was asked for, and by their names. Said is what each looks like and what to do.</summary>
public sealed class WrongLayoutTests
{
    private static readonly Dictionary<KnownLayout, string> Makers = new()
    {
        [KnownLayout.FccUls] = "uls",
        [KnownLayout.IsedTafl] = "tafl",
        [KnownLayout.AcmaRrl] = "rrl",
        [KnownLayout.OfcomWtr] = "wtr",
    };

    /// <summary>A name of each register's files, and which of ours is its main table.</summary>
    private static readonly Dictionary<KnownLayout, string> MainFile = new()
    {
        [KnownLayout.FccUls] = "FR.dat",
        [KnownLayout.IsedTafl] = "TAFL_LTAF.csv",
        [KnownLayout.AcmaRrl] = "device_details.csv",
        [KnownLayout.OfcomWtr] = "WTR.csv",
    };

    public static TheoryData<KnownLayout, KnownLayout> Pairs =>
        new(KnownLayouts.All.SelectMany(static a => KnownLayouts.All.Where(b => b != a).Select(b => (a, b))));

    private static Diagnostic[] Errors(ImportOutcome outcome)
    {
        Assert.Null(outcome.Answer);
        return [.. outcome.Diagnostics.Where(static d => d.Severity == Severity.Error)];
    }

    [Theory]
    [MemberData(nameof(Pairs))]
    public void Import_of_another_layout_than_asked_for_names_what_it_looks_like(KnownLayout asked, KnownLayout given)
    {
        using Scratch scratch = new();
        ImportTests.Make(Makers[given], scratch, 5);
        string one = Path.Combine(scratch.Input, MainFile[given]);
        foreach (string path in (string[])[one, scratch.Input, scratch.Zip()])
        {
            Diagnostic[] errors = Errors(RegisterImport.Run(
                new ImportQuestion { Files = [path], Database = scratch.Database, AsOf = Scratch.Today, Layout = asked }));

            Assert.All(errors, d => Assert.Equal(
                $"this looks like a file of {given.Title()}, not of {asked.Title()}", d.What));
            Assert.All(errors, d => Assert.StartsWith($"write --layout {given.Word()}, or give ", d.Remedy, StringComparison.Ordinal));
            Assert.Contains(errors, d => d.File.EndsWith(MainFile[given], StringComparison.Ordinal));
            Assert.False(File.Exists(scratch.Database));
        }
    }

    [Theory]
    [MemberData(nameof(Pairs))]
    public void Import_of_a_file_under_another_registers_name_says_both_and_the_option_settles_it(KnownLayout named, KnownLayout given)
    {
        using Scratch made = new();
        ImportTests.Make(Makers[given], made, 5);
        using Scratch scratch = new();
        string path = Path.Combine(scratch.Input, MainFile[named]);
        File.Copy(Path.Combine(made.Input, MainFile[given]), path);

        foreach (string way in (string[])[path, scratch.Input, scratch.Zip()])
        {
            Diagnostic error = Assert.Single(Errors(scratch.Import(way)));
            Assert.Equal($"the name is one of {named.Title()}, but this looks like a file of {given.Title()}", error.What);
            Assert.EndsWith($", or write register import --layout {given.Word()}", error.Remedy, StringComparison.Ordinal);
        }

        // With the option it is read as what it is; registers of several files then say which are missing.
        ImportOutcome settled = RegisterImport.Run(
            new ImportQuestion { Files = [path], Database = scratch.Database, AsOf = Scratch.Today, Layout = given });
        if (given is KnownLayout.IsedTafl or KnownLayout.OfcomWtr)
        {
            Assert.Equal([given.Word()], Assert.IsType<ImportAnswer>(settled.Answer).Registers);
        }
        else
        {
            Assert.All(Errors(settled), static d => Assert.Contains("is missing beside this file", d.What, StringComparison.Ordinal));
        }
    }

    [Theory]
    [InlineData(KnownLayout.FccUls, "uls")]
    [InlineData(KnownLayout.IsedTafl, "tafl")]
    [InlineData(KnownLayout.AcmaRrl, "rrl")]
    [InlineData(KnownLayout.OfcomWtr, "wtr")]
    public void Import_of_the_layout_that_was_asked_for_is_the_import_without_asking(KnownLayout layout, string maker)
    {
        using Scratch scratch = new();
        ImportTests.Make(maker, scratch, 40);
        string free = Scratch.Counts(scratch.Import().Answer!);

        ImportOutcome asked = RegisterImport.Run(new ImportQuestion
        {
            Files = [scratch.Input],
            Database = scratch.Database + "2",
            AsOf = Scratch.Today,
            Layout = layout,
        });

        Assert.Equal(free, Scratch.Counts(Assert.IsType<ImportAnswer>(asked.Answer)));
    }

    /// <summary>The files of two countries in one folder, nobody having said which: both are read.</summary>
    [Fact]
    public void Import_of_two_registers_in_one_folder_reads_both()
    {
        using Scratch scratch = new();
        ImportTests.Make("wtr", scratch, 5);
        ImportTests.Make("tafl", scratch, 5);

        Assert.Equal(["ised-tafl", "ofcom-wtr"], Assert.IsType<ImportAnswer>(scratch.Import().Answer).Registers);
    }

    [Theory]
    [InlineData("TAFL_LTAF.csv", "no line of it begins with TX or RX, as every row of ised-tafl does")]
    [InlineData("FR.dat", "no line of it begins with FR|, as every row of fcc-uls does")]
    public void Import_of_something_else_under_a_registers_name_says_so(string name, string what)
    {
        using Scratch scratch = new();
        if (name == "FR.dat")
        {
            ImportTests.Make("uls", scratch, 3);
        }

        scratch.Write(name, "city,people\nInventia,12\n");

        Assert.Contains(Errors(scratch.Import()), d => d.What == what && d.File.EndsWith(name, StringComparison.Ordinal));
    }

    [Fact]
    public void Layout_of_an_unknown_word_lists_those_there_are()
    {
        Assert.False(KnownLayouts.TryParse("fcc", out _, out string problem));
        Assert.Equal(
            "'fcc' is no register whose layout is known; write fcc-uls, ised-tafl, acma-rrl, ofcom-wtr", problem);
        Assert.All(KnownLayouts.All, static l => Assert.True(KnownLayouts.TryParse(l.Word(), out KnownLayout back, out _) && back == l));
    }
}
