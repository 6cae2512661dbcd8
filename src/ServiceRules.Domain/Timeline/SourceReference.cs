namespace ServiceRules.Domain.Timeline;

/// <summary>Which source an event speaks of. A closed family.</summary>
public abstract record SourceReference
{
    private SourceReference() { }

    /// <summary>One energy source of the machine's procedure.</summary>
    public sealed record One(Id<Site.EnergySource> Source) : SourceReference;

    /// <summary>Every source of the machine's procedure.</summary>
    public sealed record All : SourceReference;

    /// <summary>The group lock box.</summary>
    public sealed record GroupBox : SourceReference;
}
