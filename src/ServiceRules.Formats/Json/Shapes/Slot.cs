namespace ServiceRules.Formats.Json.Shapes;

/// <summary>Where the value of one member is found when an object is built from what was read.</summary>
public sealed class Slot<T> : MemberSlot
{
    internal Slot(string name, int index)
        : base(name, index) { }
}
