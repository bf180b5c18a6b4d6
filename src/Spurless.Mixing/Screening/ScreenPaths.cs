using Spurless.Numerics;
using Spurless.Radio.Paths;

namespace Spurless.Mixing.Screening;

/// <summary>
/// The levels of emitters at one receiver. Path loss is that of free space, or of plane earth where both antennas' heights and both grounds
/// are known: the greater of the two, for they cross at the break point; where the ground between is known, that over it. One instance a
/// thread.
/// </summary>
internal sealed class ScreenPaths(ScreenField field, IScreenGround? ground)
{
    private static readonly double FreeSpaceDb = 20 * Math.Log10(4 * Math.PI / PhysicalConstants.SpeedOfLight);

    private readonly Dictionary<int, double> _overGround = [];
    private ScreenReceiver _receiver = null!;
    private EarthPoint _here;
    private bool _beam;
    private bool _heights;
    private double _withinSquared;

    /// <summary>The least that a path of 1 m loses at 1 Hz, in dB: for bounds.</summary>
    public double LeastFreeSpaceDb => FreeSpaceDb - (ground is null ? 0 : IScreenGround.LeastUnderFreeSpaceDb);

    /// <summary>Whether the ground between is asked.</summary>
    public bool IsOverGround => ground is not null;

    /// <summary>Turns to a receiver.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="withinSquared">What is further, squared, is left out.</param>
    public void Begin(ScreenReceiver receiver, double withinSquared)
    {
        (_receiver, _withinSquared) = (receiver, withinSquared);
        _here = EarthPoint.Of(receiver.Place);
        _beam = double.IsFinite(receiver.Profile.AzimuthDegrees) && receiver.Profile.BeamwidthDegrees is > 0 and < 360;
        _heights = receiver.HeightM > 0 && double.IsFinite(receiver.GroundM);
        _overGround.Clear();
    }

    /// <summary>Level at the antenna connector of an isotropic antenna with this one's direction, in dBm; NaN nearer than a wavelength,
    /// minus infinity beyond the cut, and where it is under a least level whatever the ground between.</summary>
    public double Level(int i, double atLeast)
    {
        ref readonly ScreenField.Site site = ref field.Sites[i];
        double squared = _here.ChordSquared(site.Point);
        if (squared > _withinSquared)
        {
            return double.NegativeInfinity;
        }

        double distance = EarthPoint.Arc(squared);
        if (distance * site.FrequencyHz < PhysicalConstants.SpeedOfLight)
        {
            return double.NaN;
        }

        double distanceDb = 20 * Math.Log10(distance);
        double free = FreeSpaceDb + distanceDb + site.FrequencyDb;
        double off = OffAxisDb(i, site);
        if (ground is not null)
        {
            // The ground is asked last: it costs ten thousand times what free space does.
            double least = free - IScreenGround.LeastUnderFreeSpaceDb;
            if (site.EirpDbm - Math.Max(0, least + off) < atLeast)
            {
                return double.NegativeInfinity;
            }

            double over = OverGround(i);
            if (!double.IsNaN(over))
            {
                return site.EirpDbm - Math.Max(0, Math.Max(over, least) + off);
            }
        }

        double loss = free;
        if (_heights && !float.IsNaN(site.HeightM))
        {
            loss = Math.Max(loss, (2 * distanceDb) - (20 * Math.Log10(Heights(site))));
        }

        return site.EirpDbm - Math.Max(0, loss + off);
    }

    /// <summary>The product of both antennas' heights over the lower ground in square metres.</summary>
    private double Heights(in ScreenField.Site site)
    {
        double lower = Math.Min(site.GroundM, _receiver.GroundM);
        return (site.HeightM + site.GroundM - lower) * (_receiver.HeightM + _receiver.GroundM - lower);
    }

    private double OverGround(int i)
    {
        if (!_overGround.TryGetValue(i, out double loss))
        {
            _overGround.Add(i, loss = ground!.LossDb(field.Original[i], _receiver));
        }

        return loss;
    }

    /// <summary>What both antennas lose because they point elsewhere, in dB.</summary>
    private double OffAxisDb(int i, in ScreenField.Site site)
    {
        double off = 0;
        if (!float.IsNaN(site.Azimuth))
        {
            double towards = site.Point.BearingTo(_here, field.Latitude[i], field.Longitude[i]);
            off = OffAxis.LossDb(OffAxis.Difference(towards, site.Azimuth), site.Beamwidth);
        }

        if (_beam)
        {
            double from = _here.BearingTo(site.Point, _receiver.Place.LatitudeDegrees, _receiver.Place.LongitudeDegrees);
            off += OffAxis.LossDb(OffAxis.Difference(from, _receiver.Profile.AzimuthDegrees), _receiver.Profile.BeamwidthDegrees);
        }

        return off;
    }
}
