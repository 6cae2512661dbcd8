using System.Diagnostics.CodeAnalysis;

namespace ServiceRules.Domain.Quantities;

/// <summary>The outcome of reading a text: either a value or the reason why there is none.</summary>
/// <typeparam name="T">The kind of value that was asked for.</typeparam>
public sealed record Parsed<T>
    where T : notnull
{
    private readonly T? value;
    private readonly ParseFailure? failure;

    private Parsed(T? value, ParseFailure? failure)
    {
        this.value = value;
        this.failure = failure;
    }

    /// <summary>The text was read.</summary>
    /// <param name="value">What it says.</param>
    public static Parsed<T> Of(T value) => new(value, null);

    /// <summary>The text was refused.</summary>
    /// <param name="failure">Why, and what would be accepted.</param>
    public static Parsed<T> Refused(ParseFailure failure)
    {
        ArgumentNullException.ThrowIfNull(failure);
        return new(default, failure);
    }

    /// <summary>Gives the value, or the reason why there is none.</summary>
    /// <param name="value">The value, when the answer is true.</param>
    /// <param name="failure">The reason, when the answer is false.</param>
    /// <returns>True when there is a value.</returns>
    public bool TryGet([NotNullWhen(true)] out T? value, [NotNullWhen(false)] out ParseFailure? failure)
    {
        value = this.value;
        failure = this.failure;
        return failure is null;
    }

    /// <summary>The value of a text that is known to be right, such as a constant in code.</summary>
    /// <exception cref="FormatException">The text was refused after all; the message says why.</exception>
    public T OrThrow() =>
        TryGet(out T? read, out ParseFailure? refused) ? read : throw new FormatException(refused.ToString());
}
