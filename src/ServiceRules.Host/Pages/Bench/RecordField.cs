namespace ServiceRules.Host.Pages.Bench;

/// <summary>A place of a record that a form fills in.</summary>
/// <param name="Pointer">The place, as a JSON pointer.</param>
/// <param name="Label">What it is, in words.</param>
/// <param name="Kind">How it is filled in.</param>
/// <param name="Shown">What the form shows of it; empty: it is to be filled in.</param>
public sealed record RecordField(string Pointer, string Label, FieldKind Kind, string Shown)
{
    /// <summary>The unit of a quantity.</summary>
    public string Unit { get; init; } = "";

    /// <summary>What there is to choose from.</summary>
    public IReadOnlyList<string> Choices { get; init; } = [];

    /// <summary>What is wrong with it; null: nothing is known to be.</summary>
    public string? Wrong { get; init; }
}

/// <summary>How a place is filled in.</summary>
public enum FieldKind
{
    /// <summary>A number with a unit to choose.</summary>
    Quantity,

    /// <summary>A time of the day.</summary>
    Time,

    /// <summary>One of some words.</summary>
    Choice,

    /// <summary>Anything.</summary>
    Text,
}

/// <summary>Fields that belong together.</summary>
public sealed record FieldGroup(string Title, IReadOnlyList<RecordField> Fields);
