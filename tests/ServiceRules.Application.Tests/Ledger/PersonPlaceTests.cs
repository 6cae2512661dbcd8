using System.Collections.Immutable;
using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Tests.Filed;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Records;

namespace ServiceRules.Application.Tests.Ledger;

public sealed class PersonPlaceTests
{
    private static ServiceRecord Job(Action<JsonObject>? change = null)
    {
        var record = RecordFiles.Fixture("height-check");
        change?.Invoke(record);
        Assert.True(
            RecordFormat
                .Current.Read(Encoding.UTF8.GetBytes(record.ToJsonString()))
                .TryGet(out var read, out _)
        );
        return read;
    }

    [Fact]
    public void Find_OneOfThePeople_LeadsThereAndBack()
    {
        var job = Job();

        Assert.Equal("/people/0/id", PersonPlace.Find(job, "tech-02"));
        Assert.Equal("/people/1/id", PersonPlace.Find(job, "tech-04"));
        Assert.Equal("tech-04", PersonPlace.Read(job, "/people/1/id"));
    }

    [Fact]
    public void Find_OfTheTimelineOrTheSignOffAlone_LeadsThereAndBack()
    {
        var job = Job() with { People = ImmutableArray<Participant>.Empty };
        var bare = job with { Timeline = [] };

        var (entry, signOff) = (PersonPlace.Find(job, "tech-02"), PersonPlace.Find(bare, "tech-02"));

        Assert.Equal(("/timeline/0/by", "/signOff/by"), (entry, signOff));
        Assert.Equal("tech-02", PersonPlace.Read(job, entry!));
        Assert.Equal("tech-02", PersonPlace.Read(bare, signOff!));
    }

    [Fact]
    public void Find_Nobody_LeadsNowhere() => Assert.Null(PersonPlace.Find(Job(), "lead-01"));

    [Theory]
    [InlineData("/people/2/id")]
    [InlineData("/people/-1/id")]
    [InlineData("/people/+1/id")]
    [InlineData("/people/99999999999/id")]
    [InlineData("/people//id")]
    [InlineData("/people/id")]
    [InlineData("/people/0")]
    [InlineData("/timeline/999/by")]
    [InlineData("/machine/id")]
    [InlineData("")]
    public void Read_PlaceOfNobody_IsNobody(string place) => Assert.Null(PersonPlace.Read(Job(), place));

    [Fact]
    public void Read_SignOffOfAnOpenJob_IsNobody() =>
        Assert.Null(PersonPlace.Read(Job(job => job.Remove("signOff")), "/signOff/by"));
}
