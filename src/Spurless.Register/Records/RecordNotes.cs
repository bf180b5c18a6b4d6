namespace Spurless.Register.Records;

/// <summary>What was assumed, converted or is doubtful in a record.</summary>
[Flags]
public enum RecordNotes
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>The radiated power was computed from an ERP.</summary>
    FromErp = 1,

    /// <summary>The radiated power was computed from the transmitter's power and an antenna gain that the record gives.</summary>
    FromPower = 2,

    /// <summary>The radiated power was computed from the transmitter's power and an assumed gain.</summary>
    GainAssumed = 4,

    /// <summary>The unit of the power is not in the record.</summary>
    PowerUnitAssumed = 8,

    /// <summary>Whether the power is ERP or EIRP is not in the record.</summary>
    PowerKindAssumed = 16,

    /// <summary>A temporary station.</summary>
    Temporary = 32,

    /// <summary>An itinerant station.</summary>
    Itinerant = 64,

    /// <summary>The position is on NAD27.</summary>
    Nad27 = 128,

    /// <summary>The position is on a datum that is not known.</summary>
    OtherDatum = 256,

    /// <summary>The status is a word that is not known.</summary>
    StatusUnknown = 512,

    /// <summary>The antenna has a main direction, but the record gives no beamwidth.</summary>
    NoBeamwidth = 1024,

    /// <summary>The record gives no transmitting antenna height.</summary>
    NoHeight = 2048,
}

/// <summary>The notes in words.</summary>
public static class RecordNoteWords
{
    private static readonly (RecordNotes Note, string Words)[] All =
    [
        (RecordNotes.FromErp, "EIRP from the ERP of the record, plus 2.15 dB"),
        (RecordNotes.FromPower, "EIRP from the transmitter's power and the antenna's gain in the record, taken as dBi"),
        (RecordNotes.GainAssumed,
            "EIRP from the transmitter's power with a dipole's gain, 2.15 dBi: the record gives no gain and no losses"),
        (RecordNotes.PowerUnitAssumed, "the record gives no unit of its power: taken as dBW"),
        (RecordNotes.PowerKindAssumed, "the record does not say whether its power is ERP or EIRP: taken as ERP"),
        (RecordNotes.Temporary, "a temporary station: it may stand elsewhere or not at all"),
        (RecordNotes.Itinerant, "an itinerant station: it may stand elsewhere"),
        (RecordNotes.Nad27, "the position is on NAD27 and was not converted: it may be 200 m off"),
        (RecordNotes.OtherDatum, "the position is on a datum that is not known here: it may be some 100 m off"),
        (RecordNotes.StatusUnknown, "the licence's status is a word that is not known here: taken as in force"),
        (RecordNotes.NoBeamwidth, "the antenna has a main direction without a beamwidth: counted as equal all round"),
        (RecordNotes.NoHeight, "the record gives no antenna height"),
    ];

    /// <summary>A sentence for each note, without a full stop.</summary>
    public static IEnumerable<string> Of(RecordNotes notes) => All.Where(n => (notes & n.Note) != 0).Select(static n => n.Words);
}
