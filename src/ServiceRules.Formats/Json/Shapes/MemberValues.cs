namespace ServiceRules.Formats.Json.Shapes;

/// <summary>The values of an object's members, once all of them were read.</summary>
public sealed class MemberValues
{
    private readonly object?[] values;

    internal MemberValues(object?[] values) => this.values = values;

    public T Get<T>(Slot<T> slot) => (T)values[slot.Index]!;
}
