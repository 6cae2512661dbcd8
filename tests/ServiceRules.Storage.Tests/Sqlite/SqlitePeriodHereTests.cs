using ServiceRules.Storage.Tests.Reports;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqlitePeriodHereTests() : PeriodHereContract(() => new Drawer());
