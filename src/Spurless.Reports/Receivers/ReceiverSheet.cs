using Spurless.Drawing.Words;
using Spurless.Sites.Documents.Receivers;
using Spurless.Sites.Receivers;

namespace Spurless.Reports.Receivers;

/// <summary>How to measure a receiver on the bench: steps with the levels to set, traps, cautions.</summary>
public static class ReceiverSheet
{
    /// <summary>What can hurt somebody or something, each without a full stop.</summary>
    public static IReadOnlyList<string> Cautions { get; } =
    [
        "Never key a transmitter into a generator, a combiner or a pad: a transceiver under test stays on receive, its microphone off and "
            + "its key line open, before anything is connected",
        "Test through a connector that carries no transmitter's power: switch the transmitter off at its supply, and never put two-tone "
            + "levels into a duplexer or bypass that may transmit",
        "Stay under the greatest input level the receiver's maker allows; begin with the generators down and pads in",
        "Test signals belong on cables and into loads; do not put them on the air",
        "Mains instruments keep their earth; only licensed people open what carries mains",
    ];

    /// <summary>What goes wrong on the bench, and how it shows, each without a full stop.</summary>
    public static IReadOnlyList<string> Traps { get; } =
    [
        "The generators or the combiner make the mixture themselves: put 3 dB more of pad between combiner and receiver; a mixture made in "
            + "the receiver falls by its order times 3 dB, one made on the bench by 3 dB",
        "Generators that hear one another: 20 dB and more of isolation in the combiner, and 6 to 10 dB of pad behind each generator",
        "A generator's own noise on the channel: switch one tone off; what is still read is noise, not a mixture",
        "An automatic gain control that has moved: read against a signal on the channel that reads alike, not by a meter's scale",
        "Losses of cables, pads and combiner: levels are those at the receiver's connector",
    ];

    /// <summary>The steps, each a sentence without a full stop.</summary>
    public static IReadOnlyList<string> Steps(ReceiverAnswer answer, Typography signs)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ReceiverMeasurements document = answer.Document;
        string channel = ReceiverWords.Mhz(document.Frequency.Hertz);
        string near = ReceiverWords.Mhz(document.Frequency.Hertz + 50_000);
        string far = ReceiverWords.Mhz(document.Frequency.Hertz + 100_000);
        string strong = ReceiverWords.Mhz(document.Frequency.Hertz + 1_000_000);
        string wanted = answer.Sensitivity is { } sensitivity
            ? $"{ReceiverWords.Dbm(sensitivity.Value + 3, signs)}, 3 dB over the sensitivity"
            : "3 dB over the sensitivity";
        return
        [
            $"Sensitivity: one generator on {channel} MHz with the usual test modulation; lower it until the audio reads 12 dB SINAD. "
                + "Write the level at the connector, as dBm, or as uV with pd or emf",
            $"Two tones: the wanted signal at {wanted}; generators on {near} and {far} MHz, unmodulated, both from {Start(answer, signs)} "
                + "up together until the audio is back at 12 dB SINAD. The mixture then equals the noise: write each tone's level. It "
                + "counts once the bench is checked as the traps say",
            "The same with tones where the strong stations stand: against the close pair it tells what the front end takes from them",
            $"Responses: the first generator on the image and at half the intermediate frequency off, up to 90 dB over the sensitivity; "
                + "write the level that gives 12 dB SINAD",
            $"Blocking: wanted signal at {wanted}; a strong unmodulated signal on {strong} MHz, raised until the audio is back at 12 dB "
                + "SINAD",
        ];
    }

    private static string Start(ReceiverAnswer answer, Typography signs)
    {
        // Where the mixture still lies 30 dB under the noise, by what is known or by a usual receiver.
        double noise = answer.Noise?.Value ?? -127;
        double intercept = answer.Intercepts.Where(static i => i.Order == 3).Select(static i => (double?)i.Figure.Value).Min() ?? -10;
        return ReceiverWords.Dbm(Math.Floor(((2 * intercept) + noise - 30) / 3), signs);
    }
}
