using System.Xml.Linq;

namespace ServiceRules.Architecture.Tests.Floors;

/// <summary>The arrows of docs/architecture.md, held against project files and against what was compiled.</summary>
public sealed class FloorTests
{
    private static readonly string BaseLibrary = Path.GetDirectoryName(typeof(object).Assembly.Location)!;

    public static TheoryData<string> BuiltFloors => new(House.Built.Select(floor => floor.Name));

    [Fact]
    public void House_EveryProjectOfTheProduct_IsAFloorOfTheTable() =>
        Shortfalls.None(
            House.Projects("src").Except(House.Floors.Select(floor => floor.ProjectName)),
            "projects that are no floor"
        );

    [Fact]
    public void House_Floors_StandAboveAllThatTheyUse()
    {
        var names = House.Floors.Select(floor => floor.Name).ToList();

        Assert.All(
            House.Floors,
            floor =>
                Assert.All(
                    floor.Below,
                    below => Assert.InRange(names.IndexOf(below), 0, names.IndexOf(floor.Name) - 1)
                )
        );
    }

    [Theory]
    [MemberData(nameof(BuiltFloors))]
    public void ProjectFile_References_PointDownOnly(string name)
    {
        var floor = House.Named(name);

        Assert.Empty(
            ProjectReferences("src", floor.ProjectName)
                .Except(floor.Below.Select(below => "ServiceRules." + below))
        );
    }

    [Theory]
    [MemberData(nameof(BuiltFloors))]
    public void Assembly_References_AreFloorsBelowAndTheLibrariesOfItsFloor(string name)
    {
        var floor = House.Named(name);
        var allowed = floor.Below.Select(below => House.Named(below).AssemblyName).Concat(floor.Libraries);

        Shortfalls.None(Outside(floor).Except(allowed), $"what {name} may not see");
    }

    [Fact]
    public void Assembly_References_AreSeenByThisTest()
    {
        // Without this the test above would pass on a list that is empty for another reason.
        Assert.Contains("NRules", Outside(House.Named("Engine")));
        Assert.Contains("MathNet.Numerics", Outside(House.Named("Domain")));
        Assert.Contains("ServiceRules.Domain", Outside(House.Named("Rules")));
    }

    [Fact]
    public void Oracle_SecondEvaluator_IsNeitherSeenByTheProductNorSeesTheEngine()
    {
        const string oracle = "ServiceRules.Oracle";

        Assert.All(
            House.Projects("src"),
            project => Assert.DoesNotContain(oracle, ProjectReferences("src", project))
        );
        Assert.All(House.Built, floor => Assert.DoesNotContain(oracle, Outside(floor)));
        Assert.Empty(
            ProjectReferences("tests", oracle).Except(["ServiceRules.Domain", "ServiceRules.Rules"])
        );
    }

    private static IEnumerable<string> ProjectReferences(string side, string project) =>
        XDocument
            .Load(House.ProjectFile(side, project))
            .Descendants("ProjectReference")
            .Select(reference => Path.GetFileNameWithoutExtension(reference.Attribute("Include")!.Value));

    private static IEnumerable<string> Outside(Floor floor) =>
        House
            .Compiled(floor)
            .GetReferencedAssemblies()
            .Select(reference => reference.Name!)
            .Where(reference => !File.Exists(Path.Combine(BaseLibrary, reference + ".dll")));
}
