namespace Spurless.Sites.Documents.Bypasses;

/// <summary>The text of <c>new bypass</c>: reads without an error and shows how everything is written.</summary>
public static class BypassTemplate
{
    /// <summary>The template.</summary>
    public const string Text = """
        # A relay that the transmitter's own radio frequency switches past a receive filter. All figures below are invented;
        # put those of your parts in their place. A line that begins with # is a comment: remove the # to use what it holds.
        # Try it into a dummy load first, at low power; nobody touches the filter or the line while it is keyed.
        spurless_bypass: 1
        name: my relay round the filter
        impedance: 50 ohm
        frequency: 145.65 MHz             # transmitted on
        tap: { capacitor: 2.2 pF }        # from the line to the detector
        detector:
          rectifier: doubler              # single | doubler
          diode: { saturation_current: 20 nA, emission: 1.05, series: 5 ohm, junction: 0.8 pF }
          smoothing: 10 nF                # holds between syllables
          bleed: 100 kohm                 # lets it go
        driver:
          supply: 12 V
          saturation: 0.2 V               # left across a transistor that is fully on
          stages:                         # from the detector on; the last one carries the coil
            - { base_resistor: 10 kohm, gain: 100, vbe: 0.65 V }
            - { base_resistor: 4.7 kohm, gain: 50, vbe: 0.7 V }
        relay:
          coil: 320 ohm                   # at 20 degrees
          inductance: 0.4 H
          operates_at: 8.4 V
          releases_at: 1.2 V
          travel: 3 ms                    # from the pull to the contacts over
          release_travel: 2 ms            # and back
          clamp: 0.7 V                    # the diode across the coil
          contact: { loss: 0.1 dB, open: 0.8 pF }
        # filter: my-filter.circuit.yaml  # the filter that is bypassed; or its sweep, my-filter.s2p
        # site: my.site.yaml              # strongest signals off the air, against what operates the relay
        transmitter: { power: 50 W, swr: 2 }

        """;
}
