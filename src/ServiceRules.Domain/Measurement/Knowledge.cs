using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// What is known of a length: a <see cref="MeasuredValue"/> with its uncertainty, or a
/// <see cref="LengthInterval"/> from go/no-go tests. A closed family of two.
/// </summary>
public abstract record Knowledge
{
    private protected Knowledge() { }

    /// <summary>
    /// What is known after the length was moved by a stated amount that is itself only known to within a
    /// half width: a measured value takes it as a rectangular distribution (JCGM 100:2008, 4.3.7), an
    /// interval widens by it at both ends.
    /// </summary>
    /// <param name="by">The signed movement.</param>
    /// <param name="halfWidth">How far the movement may be off either way; zero or more.</param>
    public abstract Knowledge ShiftedBy(Length by, Length halfWidth);

    /// <summary>What is most credible of it: the measured value, or the middle of the interval; none where that is open on a side.</summary>
    public abstract Length? Middle { get; }

    /// <summary>The measured value as read, or the lower end of the interval; none where it has none.</summary>
    public abstract Length? Least { get; }

    /// <summary>The measured value as read, or the upper end of the interval; none where it has none.</summary>
    public abstract Length? Greatest { get; }

    /// <summary>
    /// The interval this knowledge stands for: the interval itself, or the measured value plus and minus its
    /// expanded uncertainty, ends included.
    /// </summary>
    public abstract LengthInterval AsInterval();
}
