namespace ServiceRules.Architecture.Tests.Floors;

public sealed class PublicSurfaceTests
{
    public static TheoryData<string> BuiltFloors => new(House.Built.Select(floor => floor.Name));

    [Theory]
    [MemberData(nameof(BuiltFloors))]
    public void PublicSurface_EveryFloorButTheTop_ShowsNoTypeOfALibrary(string name)
    {
        var floor = House.Named(name);
        var members = PublicMember.Of(House.Compiled(floor)).ToList();
        var leaking = members
            .SelectMany(member =>
                member.Types.Select(type => (member.Name, Library: type.Assembly.GetName().Name))
            )
            .Where(leak => floor.Libraries.Contains(leak.Library))
            // What the compiler of pages makes is public, whatever it is called.
            .Where(leak => leak.Library != "Microsoft.AspNetCore.Components")
            .Select(leak => $"{leak.Name}: {leak.Library}")
            .Distinct();

        Shortfalls.None(leaking, $"members of {name} that show a library");
    }
}
