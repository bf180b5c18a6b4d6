using Spurless.Sites.Tests;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

public sealed class FolderReadingsTests : IDisposable
{
    private readonly string _path = Directory.CreateTempSubdirectory("spurless-readings-").FullName;
    private readonly OpenFolder _folder;
    private readonly FolderReadings _readings;

    public FolderReadingsTests()
    {
        foreach (string file in Directory.EnumerateFiles(Demo, "*", SearchOption.AllDirectories))
        {
            string copy = Path.Combine(_path, Path.GetRelativePath(Demo, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }

        _folder = new OpenFolder(_path, TimeProvider.System);
        _readings = new FolderReadings(_folder, TimeProvider.System);
    }

    private static string Demo => Path.GetDirectoryName(TestData.Demo("x"))!;

    public void Dispose()
    {
        _readings.Dispose();
        _folder.Dispose();
        Directory.Delete(_path, recursive: true);
    }

    [Fact]
    public async Task FinishedAsync_gives_the_study_of_a_site_and_the_pass_band_of_a_filter()
    {
        FileReading site = (await _readings.FinishedAsync("quernmoss.site.yaml", CancellationToken.None))!;
        Assert.Equal("1 receiver, 17 emitters", site.Holds);
        Assert.NotNull(site.Study);
        FileReading filter = (await _readings.FinishedAsync("filters/three-tank.circuit.yaml", CancellationToken.None))!;
        Assert.NotNull(filter.Passband);
        Assert.Empty(filter.Findings);
        Assert.Null(await _readings.FinishedAsync("../quernmoss.site.yaml", CancellationToken.None));
    }

    [Fact]
    public async Task FinishedAsync_a_circuit_with_values_to_be_found_is_no_faulty_file()
    {
        FileReading unmarked = (await _readings.FinishedAsync("filters/unmarked.circuit.yaml", CancellationToken.None))!;
        Assert.Equal(0, unmarked.Errors);
        Assert.Null(unmarked.Passband);
        Assert.Contains("is unknown, and", unmarked.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Change_of_a_file_that_a_site_names_has_it_studied_again_and_that_of_another_does_not()
    {
        FileReading filtered = (await _readings.FinishedAsync("quernmoss-filtered.site.yaml", CancellationToken.None))!;
        FileReading bare = (await _readings.FinishedAsync("quernmoss.site.yaml", CancellationToken.None))!;
        string circuit = Path.Combine(_path, "filters", "three-tank.circuit.yaml");
        File.AppendAllText(circuit, "# by hand\n");
        _folder.Look();
        Assert.Equal(ReadingStage.Done, _readings.Of("quernmoss.site.yaml")!.Stage);
        FileReading again = (await _readings.FinishedAsync("quernmoss-filtered.site.yaml", CancellationToken.None))!;
        Assert.NotSame(filtered.Study, again.Study);
        Assert.False(again.IsBefore);
        Assert.Same(bare.Study, _readings.Of("quernmoss.site.yaml")!.Study);
    }

    [Fact]
    public async Task Stop_ends_a_long_study_and_Again_takes_it_up()
    {
        // So many vectors that it runs for hours: the test stops it.
        string emitters = string.Concat(
            Enumerable.Range(0, 300).Select(
                static i =>
                    FormattableString.Invariant(
                        $"  - {{ name: e{i}, frequency: {400 + i}.{i:000} MHz, bandwidth: 16 kHz, level: -30 dBm }}\n")));
        File.WriteAllText(
            Path.Combine(_path, "long.site.yaml"),
            "spurless: 1\nsite: long\nreceivers:\n  - { name: r, frequency: 145.05 MHz, channel: "
                + "12.5 kHz, sensitivity: 0.25 uV pd, iip3: -10 dBm }\nemitters:\n"
                + emitters + "search: { orders: 2-9, signals: 9, floor: none }\n");
        _folder.Look();
        TaskCompletionSource working = new(TaskCreationOptions.RunContinuationsAsynchronously);
        _readings.Changed += name =>
        {
            if (name == "long.site.yaml" && _readings.Of(name)!.Stage == ReadingStage.Working)
            {
                working.TrySetResult();
            }
        };
        _readings.Of("long.site.yaml");
        // What never begins is a hang; how fast it begins is no matter.
        await working.Task.WaitAsync(TimeSpan.FromMinutes(5));
        _readings.Stop("long.site.yaml");
        Assert.Equal(ReadingStage.Stopped, (await _readings.FinishedAsync("long.site.yaml", CancellationToken.None))!.Stage);
        // Nobody waits behind it.
        Assert.Equal(ReadingStage.Done, (await _readings.FinishedAsync("quernmoss.site.yaml", CancellationToken.None))!.Stage);
        _readings.Again("long.site.yaml");
        Assert.True(_readings.Of("long.site.yaml")!.Stage is ReadingStage.Waiting or ReadingStage.Working);
        _readings.Stop("long.site.yaml");
    }
}
