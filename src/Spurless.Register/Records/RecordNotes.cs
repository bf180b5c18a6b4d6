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
