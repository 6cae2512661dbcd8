namespace ServiceRules.Domain.Remedies;

/// <summary>Why no whole number of steps lands every place in the zone.</summary>
public enum BindingConstraint
{
    /// <summary>The ends must hold, but the readings draw no line to them.</summary>
    EndsUnknown,

    /// <summary>What is known at some place is wider than the zone.</summary>
    KnowledgeTooWide,

    /// <summary>The line is bowed by more than the zone; tilt and offset cannot take that out.</summary>
    Straightness,

    /// <summary>Lines that are straight enough each by itself, of several blades, lie further apart than the zone is wide.</summary>
    LinesApart,

    /// <summary>It would take more steps of a side than the travel leaves.</summary>
    Travel,

    /// <summary>One step is too coarse: the zone lies between two steps.</summary>
    StepSize,

    /// <summary>Every setting inside the zone touches, or may touch.</summary>
    ContactAtTheEnd,

    /// <summary>Every way there touches, or goes deeper into contact.</summary>
    ContactOnTheWay,
}
