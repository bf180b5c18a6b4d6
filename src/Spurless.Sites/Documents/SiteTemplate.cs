namespace Spurless.Sites.Documents;

/// <summary>The text of <c>new site</c>: reads without an error and shows how everything is written.</summary>
public static class SiteTemplate
{
    /// <summary>The template.</summary>
    public const string Text = """
        # A site file: your receivers and the transmitters round them. All names and figures below are invented; put yours in their place.
        # Every number with a dimension carries its unit. A line that begins with # is a comment: remove the # to use what it holds.
        spurless: 1
        site: my repeater
        # place: { latitude: 40.50, longitude: -35.20, ground: 410 m }   # needed for distances and the register

        receivers:
          - name: input
            frequency: 145.050 MHz
            channel: 12.5 kHz               # raster: decides what can hit
            # if_bandwidth: 8 kHz           # noise bandwidth; left out, it follows from the channel
            sensitivity: 0.25 uV pd         # for 12 dB SINAD; 'pd' is across 50 ohm, 'emf' is open circuit; or noise_figure: 6 dB
            iip3: -10 dBm                   # a typical guess; or the data sheet's rejection with its method:
            # intermod_rejection: { by: 70 dB, method: tia603 }
            # selectivity: [0 dB at 145 MHz, 25 dB at 160 MHz, 45 dB at 466 MHz]   # before its first active stage
            # external_noise: rural         # none, quiet rural, rural, residential, city, or a figure such as 6 dB
            # wanted: -105 dBm              # weakest signal to protect
            # levels_at: antenna            # where the levels below were measured: antenna, feedline end, receiver
            chain:                          # from the antenna connector towards the receiver
              - feedline: { loss: 1.2 dB at 145 MHz }
              # - circuit: filter.circuit.yaml
              # - two_port: filter.s2p
              # - attenuator: 3 dB
              # - amplifier: { gain: 15 dB, noise_figure: 1.5 dB, iip3: 5 dBm }

        emitters:
          - name: my output
            frequency: 145.650 MHz
            emission: 11K2F3E               # or bandwidth: 16 kHz
            level: -44 dBm                  # measured at the antenna connector
            follows: input                  # our own transmitter: on whenever that receiver hears something
          - name: waterworks base
            frequency: 160.525 MHz
            emission: 11K2F3E
            level: -34 dBm
            # activity: 15 %
          - name: regional paging
            frequency: 466.100 MHz
            emission: 16K0F1D
            power: 100 W                    # no measured level: predicted from power, antenna and distance
            antenna: { gain: 6 dBd, height: 30 m }
            distance: 2.1 km
            # path: { obstacle: { height: 20 m, distance: 500 m } }   # a ridge: its top over the straight
            #                                   line, from the emitter; or hata suburban

        # emitters_from: neighbours.csv     # more emitters from a spreadsheet, its heads the keys above; nested ones as antenna.gain
        # exclusive: [[ waterworks base, regional paging ]]   # never on the air together
        search: { orders: 2-7, signals: 3 } # lowest and highest order, how many emitters in one mixture

        # evidence:                         # what was observed
        #   - attenuator_test: { receiver: input, inserted: 3 dB, at: antenna, over_noise: 22 dB, fall: 8.6 dB, plus_minus: 1 dB }
        #   - offset: { receiver: input, measured: 180 Hz, plus_minus: 50 Hz }
        #   - log: tuesday.log.csv

        """;
}
