using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqliteDaysTests() : DaysContract(() => new Drawer());
