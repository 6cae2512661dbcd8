namespace ServiceRules.Formats.Json.Shapes;

/// <summary>A registered member of an object.</summary>
public abstract class MemberSlot
{
    private protected MemberSlot(string name, int index)
    {
        Name = name;
        Index = index;
    }

    internal string Name { get; }

    internal int Index { get; }
}
