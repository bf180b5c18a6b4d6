namespace Spurless.Sites.Documents.Receivers;

/// <summary>The text of <c>new receiver</c>: reads without an error and shows how everything is written.</summary>
public static class MeasurementTemplate
{
    /// <summary>The template.</summary>
    public const string Text = """
        # A receiver's own measurements. All figures below are invented; put your readings in their place.
        # Every number with a dimension carries its unit. A line that begins with # is a comment: remove the # to use what it holds.
        # Every reading may carry plus_minus, one sigma; 1 dB where it is not written. Levels are those at the receiver's input.
        # Never key a transmitter into a generator or into the receiver: take its microphone off, or set it to receive only.
        spurless_receiver: 1
        name: my receiver, as measured
        frequency: 145.05 MHz
        channel: 12.5 kHz               # raster
        if_bandwidth: 8 kHz             # noise bandwidth; left out, it follows from the channel
        measured:
          - sensitivity: { level: -119 dBm }   # for 12 dB SINAD; or 0.25 uV pd, 0.5 uV emf; or { noise_figure: 6 dB }
          # both tones raised until a wanted signal 3 dB over the sensitivity falls back to 12 dB SINAD:
          - two_tone: { order: 3, tones: [145.1 MHz, 145.15 MHz], level: -44 dBm }
          # the same, read against a signal on the channel that reads alike; levels: [-44 dBm, -40 dBm] where they differ:
          # - two_tone: { order: 3, tones: [160.525 MHz, 176 MHz], level: -30 dBm, product: -94 dBm }
          - response: { at: 102.25 MHz, level: -41 dBm }   # a frequency off the channel that is heard: level for 12 dB SINAD
          - blocking: { at: 146.05 MHz, level: -29 dBm }   # a strong signal that takes 3 dB of sensitivity
          # - front_end: front-end.s2p         # what stands before the first active stage, as a sweep
          # - product: { site: my.site.yaml, receiver: input, terms: { paging: 1, waterworks: -2 }, over_noise: 22 dB }

        """;
}
