using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>What was observed. A closed family: a number, a go/no-go result and a sight are different knowledge.</summary>
public abstract record Observation
{
    private Observation() { }

    /// <summary>A length read off an instrument.</summary>
    public sealed record Measured(PrintedLength Value) : Observation;

    /// <summary>An angle read off an instrument.</summary>
    public sealed record MeasuredAngle(Angle Value) : Observation;

    /// <summary>A feeler (or a stack of them, thinnest first) that passes or does not pass.</summary>
    public sealed record FeelerTest(ImmutableArray<PrintedLength> Feelers, bool Passes) : Observation;

    /// <summary>Contact over the width, by ear and hand.</summary>
    public sealed record Contact(ContactState State) : Observation;

    /// <summary>A paper strip at a blade and station.</summary>
    public sealed record Paper(PaperResult Result) : Observation;

    /// <summary>A condition by eye or hand.</summary>
    public sealed record Seen(Condition Condition) : Observation;
}
