namespace Spurless.Signals.Recognition;

/// <summary>What kind of transmission something is.</summary>
public enum SignalKind
{
    /// <summary>Radio paging after ITU-R M.584.</summary>
    Pocsag,

    /// <summary>Packet radio of 1,200 Bd by audio tones.</summary>
    Afsk1200,

    /// <summary>Packet radio of 9,600 Bd, scrambled.</summary>
    Fsk9600,

    /// <summary>A squelch tone under the voice.</summary>
    Ctcss,

    /// <summary>A squelch code of 134.4 Bd under the voice.</summary>
    Dcs,

    /// <summary>Dialling digits by pairs of tones.</summary>
    Dtmf,

    /// <summary>A call by two tones, one after the other.</summary>
    TwoTone,

    /// <summary>Morse.</summary>
    Morse,

    /// <summary>Speech.</summary>
    Voice,

    /// <summary>A carrier with nothing on it.</summary>
    Carrier,

    /// <summary>One steady tone.</summary>
    Tone,

    /// <summary>Keying of two frequencies.</summary>
    TwoLevelFsk,

    /// <summary>Keying of four frequencies.</summary>
    FourLevelFsk,

    /// <summary>The mains and its harmonics.</summary>
    Hum,

    /// <summary>Lines at one spacing, as of a switching supply.</summary>
    Comb,

    /// <summary>Impulses: ignition, arcing.</summary>
    Noise,

    /// <summary>Something that fits no kind.</summary>
    Unknown,
}
