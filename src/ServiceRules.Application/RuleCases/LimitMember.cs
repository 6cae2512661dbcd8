namespace ServiceRules.Application.RuleCases;

/// <summary>The members of a limit sheet that a value is held against, as the file names them.</summary>
internal enum LimitMember
{
    Lower,
    Upper,
    ToleranceAboutTarget,
    SideToSide,
    AcrossUnits,
    AdjacentEnds,
    Parallelism,
    Taper,
    Barrel,
    Twist,
    WornBelow,
    Passes,
    Stops,
}
