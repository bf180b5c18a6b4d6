namespace Spurless.Sites.Documents.Requirements;

/// <summary>The text of <c>new requirement</c>: reads without an error and shows how everything is written.</summary>
public static class RequirementTemplate
{
    /// <summary>The template.</summary>
    public const string Text = """
        # A requirement file: what a filter must do. All figures below are invented; put yours in their place.
        # Every number with a dimension carries its unit. A line that begins with # is a comment: remove the # to use what it holds.
        spurless_requirement: 1
        name: quiet the input
        pass: { from: 144.9 MHz, to: 145.2 MHz, loss: 2.5 dB, return_loss: 12 dB }
        reject:                              # least insertion loss, at a frequency or over a band
          - { at: 160.5125 MHz, by: 25 dB }
          - { from: 450 MHz, to: 470 MHz, by: 45 dB }
        impedance: 50 ohm
        parts: { inductor_q: 180 at 146 MHz, capacitor_q: 500 at 146 MHz, inductors: [8 nH, 300 nH],
                 capacitors: [0.5 pF, 100 pF], series: E24 }
        # transmit: 50 W                     # must carry this
        # bypass: { open: 0.8 pF }           # open relay contacts go round it; or the relay's file: my.bypass.yaml

        """;
}
