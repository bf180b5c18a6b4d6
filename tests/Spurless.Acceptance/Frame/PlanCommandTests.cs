using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary>What <c>plan</c> says of input that makes no sense, each time with what to write instead.</summary>
public sealed class PlanCommandTests
{
    [Theory]
    [InlineData("145.8 MHz-145.0 MHz", "12.5 kHz", "", "write the lower frequency first")]
    [InlineData("145.0 MHz-145.8 MHz", "0 kHz", "", "such as 12.5 kHz")]
    [InlineData("145.0 MHz-145.8 MHz", "12 kHz", "", "end the band at 145.792 MHz or 145.804 MHz")]
    [InlineData("145.0 MHz-145.8 MHz", "10 Hz", "", "ask for 10,000 at most")]
    [InlineData("145.0 MHz-145.8 MHz", "12.5 kHz", "--shift=-146MHz", "such as --shift \"-600 kHz\"")]
    [InlineData("145.0 MHz-145.8 MHz", "12.5 kHz", "--receiver=nobody", "write one of repeater input")]
    [InlineData("145.0 MHz-145.8 MHz", "12.5 kHz", "--count=17", "write 1 to 16")]
    public async Task Plan_that_makes_no_sense_is_a_usage_error_that_says_what_to_write(
        string band, string raster, string more, string remedy)
    {
        string site = Repository.PathOf("demo", "quernmoss.site.yaml");
        string[] words = ["plan", site, "--band", band, "--raster", raster, .. more.Length > 0 ? [more] : Array.Empty<string>()];
        (int status, string output, string error) = await CapturedTerminal.RunAsync(words);
        Assert.Equal(2, status);
        Assert.Empty(output);
        Assert.Contains(remedy, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Plan_with_a_band_plan_that_is_wrong_says_where()
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        string plan = Path.Combine(folder.Path, "band.csv");
        await File.WriteAllTextAsync(plan, "from,to,use\n145 MHz,144 MHz,any\n", TestContext.Current.CancellationToken);
        string site = Repository.PathOf("demo", "quernmoss.site.yaml");
        (int status, string _, string error) = await CapturedTerminal.RunAsync(
            "plan", site, "--band", "145.0 MHz-145.8 MHz", "--raster", "12.5 kHz", "--band-plan", plan);
        Assert.Equal(1, status);
        Assert.Contains("band.csv:2:9: ", error, StringComparison.Ordinal);
        Assert.Contains("write the lower edge under 'from'", error, StringComparison.Ordinal);
    }
}
