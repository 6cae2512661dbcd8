namespace ServiceRules.Domain.Records;

/// <summary>What can be read on a unit.</summary>
public enum MeasuredQuantity
{
    /// <summary>Reel-to-bedknife clearance at the shear point.</summary>
    Clearance,

    /// <summary>Height of cut: roller plane to cutting edge, on the bench gauge.</summary>
    HeightOfCut,

    /// <summary>
    /// How far the front roller stands from the cutting edge (or reel) datum at a station: larger is further from the edge, whichever
    /// way up the unit lies. Of a gauge set to zero somewhere on it, plus is further from the edge than there.
    /// </summary>
    FrontRoller,

    /// <summary>Shield (top shield, cut-off bar) to the reel blades.</summary>
    ShieldGap,

    /// <summary>Roller brush to roller.</summary>
    BrushGap,

    /// <summary>Roller plane to the lowest groomer tip.</summary>
    GroomerHeight,

    /// <summary>Reel diameter over the blades.</summary>
    ReelDiameter,

    /// <summary>Lip height of the bedknife: its wear reserve.</summary>
    BedknifeLip,

    /// <summary>Land width of a reel blade.</summary>
    LandWidth,

    /// <summary>Play in the reel bearings.</summary>
    BearingPlay,

    /// <summary>Attitude of the bedknife.</summary>
    Attitude,

    /// <summary>Edge condition by paper, blade by blade.</summary>
    Edge,

    /// <summary>Guards and shields that protect people.</summary>
    Guards,

    /// <summary>Gap under the front roller at a station, the unit standing on its rollers on the plate.</summary>
    FrontRollerOnPlate,

    /// <summary>Gap under the rear roller at a station, the unit standing on its rollers on the plate.</summary>
    RearRollerOnPlate,
}
