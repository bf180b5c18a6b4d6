using System.Text.RegularExpressions;
using Spurless.Acceptance.Running;
using Spurless.Reports.Text;

namespace Spurless.Acceptance.Frame;

/// <summary>
/// Every text begins with its conclusion in up to three sentences, and no line is wider than a terminal. A heading may stand before it:
/// one line that says whose answer it is.
/// </summary>
public sealed partial class ConclusionFirstTests
{
    private const int MostSentences = 3;

    // What these write is no answer: a template, a schema, an address.
    private static readonly string[] _noAnswer = ["new", "schema", "serve"];

    public static TheoryData<string, int, string> Lines => new()
    {
        // line, headings before the conclusion, the conclusion
        { "study demo/quernmoss.site.yaml", 2, "^Six mixtures land on 145\\.0500 MHz over the noise; the worst, .* by 43\\.5 dB\\." },
        {
            "study demo/quernmoss-filtered.site.yaml",
            2,
            "^With the filter in, five of the six harmful mixtures .* sink under the noise\\."
        },
        { "study demo/unlisted.site.yaml", 2, "^Nothing lands on 145\\.0500 MHz\\.$" },
        {
            "study demo/quernmoss-filtered.site.yaml --against demo/quernmoss.site.yaml",
            1,
            "^repeater input 0 appeared, 6 went, 1 changed"
        },
        { "cure demo/quernmoss.site.yaml", 1, "^No filter at the receiver alone ends it: .* double isolator at the transmitter of" },
        {
            "newcomer demo/quernmoss-cured.site.yaml demo/newcomer-dale-link.site.yaml",
            1,
            "^No, not as it stands: Dale link \\(invented\\) fails on repeater input\\. .* 44\\.6 dB over the noise\\."
        },
        { "locate demo/quernmoss-heard.site.yaml", 1, "^It is 2 x 158\\.3000 - 171\\.5500 = 145\\.0500 \\(sure to >99 %\\)" },
        {
            "response demo/filters/three-tank.circuit.yaml",
            0,
            "^Passes 141\\.2169 to 148\\.83\\d\\d MHz, with 2\\.9 dB loss at the best of it\\."
        },
        { "response demo/filters/duplexer-high.s2p --near \"145.05 MHz\"", 0, "At 145\\.05 MHz it loses 46\\.1 dB\\.$" },
        { "response demo/filters/duplexer-high.s2p", 0, "Its deepest notch takes 46\\.1 dB at 145\\.05 MHz\\.$" },
        { "response demo/filters/three-tank.s2p --with demo/quernmoss.site.yaml", 0, "it weakens repeater output least" },
        { "tolerance demo/filters/three-tank.circuit.yaml --at \"145.05 MHz\"", 0, "^Half of those built lose more than " },
        { "stress demo/filters/three-tank.circuit.yaml --power \"50 W\" --at \"145.65 MHz\"", 0, "^No, do not transmit through it" },
        { "coil --turns 5 --diameter 10mm --length 10mm --wire 1mm --at 146MHz", 0, "^5 turns of 1 mm wire .* are 167\\.3 nH;" },
        {
            "coil --inductance \"100 nH\" --former \"6 mm\" --length \"10 mm\" --wire \"18 AWG\"",
            0,
            "^5\\.3 turns of 1\\.024 mm wire .* are 100 nH\\.$"
        },
        { "coil --helical \"38 mm\" --at \"146 MHz\"", 0, "^For 146 MHz in a square shield of 38 mm: 7\\.33 turns .* Q about 1085\\.$" },
        {
            "plan demo/quernmoss.site.yaml --band \"145.0 MHz-145.8 MHz\" --raster \"12.5 kHz\"",
            1,
            "^Of 65 channels from 145\\.0000 to 145\\.8000 MHz none is free of mixtures made in the receiver; the best is 145\\.8000 MHz"
        },
        { "mix 145.05 --of 94.2,50.85,160.525,466.1", 0, "^145\\.0500 MHz: 2 mixtures land " },
        { "survey demo/sweeps/hill.sweep.csv --resolution \"2.5 kHz\"", 0, "emitters stand over the noise" },
        { "register import demo/register --into q.db", 0, "^20 of 22 frequency records of invented extract are in q\\.db\\.$" },
        { "register near demo/unlisted.site.yaml --from demo/register", 0, "licensed transmitters stand within 10 km" },
        { "register screen demo/register --receivers demo/receivers.csv --out s.csv", 0, "^3 of 3 receivers have a harmful mixture;" },
        { "path demo/hill.site.yaml --from \"valley relay\"", 0, "^From valley relay to hill input" },
        { "listen demo/recordings/warble.wav", 0, "^One transmission in 24\\.0 s: paging" },
        { "fit demo/filters/unmarked.circuit.yaml demo/filters/unmarked.s2p", 0, "all 13 values found from .* to within its noise" },
        {
            "design demo/filters/quiet-input.requirement.yaml --count 1",
            0,
            "^The one circuit found meets what is asked\\. Best: .* Do not transmit"
        },
        {
            "design demo/filters/quiet-input.requirement.yaml --turn C1,C4 --tune demo/filters/three-tank.circuit.yaml "
                + "demo/filters/three-tank.s2p",
            0,
            "^It is within the mask, 0\\.42 dB to spare by the fit: seal the trimmers"
        },
        { "bypass demo/quernmoss.bypass.yaml", 0, "^At 50 W it comes over in 4\\.56 ms; until then L2 takes 34\\.2 mJ\\. Under " },
        { "receiver demo/quernmoss.receiver.yaml", 0, "^The noise floor is -128\\.7 dBm, .* The third-order intercept is -2\\.4 dBm " },
        { "check demo/quernmoss.site.yaml", 0, "^demo/quernmoss\\.site\\.yaml: site file \\(1 receiver, 17 emitters\\): nothing wrong$" },
    };

    [Theory]
    [MemberData(nameof(Lines))]
    public async Task Text_of_a_command_begins_with_the_conclusion(string line, int headings, string conclusion)
    {
        using WorkFolder folder = WorkFolder.WithDemo();
        Ended ended = await BuiltProgram.RunAsync(folder.Path, BuiltProgram.Split(line));
        Assert.True(ended.Status == 0, ended.Error);
        string[] paragraphs = ended.Output.Split("\n\n");
        Assert.All(paragraphs[..headings], static h => Assert.DoesNotContain("\n", h, StringComparison.Ordinal));
        string first = Spaces().Replace(paragraphs[headings].TrimEnd(), " ");
        Assert.Matches(conclusion, first);
        Assert.InRange(SentenceEnd().Count(first + " "), 0, MostSentences);
        Assert.All(ended.Output.Split('\n'), static l => Assert.True(TextFlow.WidthOf(l) <= TextFlow.DefaultWidth, l));
    }

    [Fact]
    public void Every_command_that_answers_is_among_them()
    {
        string[] said = [.. Lines.Select(static row => row.Data.Item1)];
        Assert.All(
            CommandList.All.Select(CommandList.PathOf).Except(_noAnswer, StringComparer.Ordinal),
            name => Assert.Contains(said, line => line.StartsWith(name + " ", StringComparison.Ordinal)));
    }

    [GeneratedRegex(@"[^0-9 ]\S*\.\s(?=[A-Z]|$)|[0-9]\.\s(?=[A-Z]|$)")]
    private static partial Regex SentenceEnd();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();
}
