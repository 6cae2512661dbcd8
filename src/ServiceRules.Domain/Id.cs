namespace ServiceRules.Domain;

/// <summary>
/// The identity of a <typeparamref name="T"/>: a person, a lock, a rule, a unit. The type parameter only keeps
/// identities of different things apart; it is never stored.
/// </summary>
/// <typeparam name="T">What is identified.</typeparam>
/// <param name="Text">
/// One to 64 characters: a letter or digit, then letters, digits, dots, hyphens and underscores. Compared ordinally.
/// </param>
public readonly record struct Id<T>(string Text) : IComparable<Id<T>>
{
    /// <summary>Orders identities ordinally by their text.</summary>
    public int CompareTo(Id<T> other) => string.CompareOrdinal(Text, other.Text);

    /// <summary>Ordinal comparison.</summary>
    public static bool operator <(Id<T> left, Id<T> right) => left.CompareTo(right) < 0;

    /// <summary>Ordinal comparison.</summary>
    public static bool operator >(Id<T> left, Id<T> right) => left.CompareTo(right) > 0;

    /// <summary>Ordinal comparison.</summary>
    public static bool operator <=(Id<T> left, Id<T> right) => left.CompareTo(right) <= 0;

    /// <summary>Ordinal comparison.</summary>
    public static bool operator >=(Id<T> left, Id<T> right) => left.CompareTo(right) >= 0;

    /// <summary>The text itself.</summary>
    public override string ToString() => Text;
}
